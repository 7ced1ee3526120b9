/** A circuit file that works: a germanium stage with a divider, an invented transistor. */
export const circuitExampleJson = `{
  "title": "first audio stage",
  "temperature_degC": 25,
  "components": [
    { "ref": "BAT", "kind": "B", "nodes": ["0", "neg"], "value": 9, "resistance": 4 },
    { "ref": "R1", "kind": "R", "nodes": ["neg", "b"], "value": 39000 },
    { "ref": "R2", "kind": "R", "nodes": ["b", "0"], "value": 6800 },
    { "ref": "RC", "kind": "R", "nodes": ["neg", "c"], "value": 3300 },
    { "ref": "RE", "kind": "R", "nodes": ["e", "0"], "value": 1000 },
    { "ref": "Q1", "kind": "Q", "nodes": ["c", "b", "e"], "pins": ["C", "B", "E"] }
  ],
  "devices": {
    "orrin-af": {
      "polarity": "pnp",
      "params": {
        "is": 2e-6, "bf": 80, "nf": 1.01, "vaf": 40, "ikf": 0.05, "ise": 9e-8, "ne": 1.7, "br": 12, "isc": 2e-6, "nc": 1.4,
        "rb": 120, "re": 0.6, "rc": 2.5, "xtb": 0.6, "xti": 3, "eg": 0.67, "tnom": 25
      },
      "external_leakage_ohm": { "rcb": 5000000, "rce": null }
    }
  }
}
`

/** A model card that works: an invented germanium transistor. */
export const modelCardExample = `* An invented germanium PNP for audio, at 25 degC.
.model ge_af PNP(IS=1.8u NF=1.01 BF=75 VAF=45 IKF=55m ISE=80n NE=1.7 BR=14
+ VAR=18 IKR=20m ISC=2.6u NC=1.35 RB=110 RE=0.6 RC=2.2 XTB=0.7 EG=0.68 TNOM=25)
`
