/** A filled example of a file of part types, with an invented type. */
export const partTypeExample = `# Part types of your own. Values have their unit; bare numbers are SI, temperatures in degC.
# Values of PNP types are magnitudes: no minus signs.
types:
  - type: GX-17
    family: bjt                # bjt, diode, zener, jfet, mosfet, scr, triac, ujt
    polarity: PNP
    material: Ge
    construction: alloy junction
    outline: TO-1
    leads:
      order: E-B-C             # or: verify
      view: three leads in line, collector by the dot
      caseConnected: insulated
    ratings:
      V_CBO: 30 V
      V_CEO: 15 V
      V_EBO: 10 V
      I_C: 150 mA
      T_Jmax: 75 degC
      power: 150 mW at 25 degC ambient
    limits:
      - { symbol: h_FE, min: 40, typ: 75, max: 130, at: { I_C: 2 mA, V_CE: 4.5 V } }
      - { symbol: I_CBO, max: 12 uA, at: { V_CB: 10 V, T: 25 degC } }
      - { symbol: V_CE(sat), max: 0.2 V, at: { I_C: 50 mA, I_B: 2.5 mA } }
    use: audio driver
    source: House sheet GX, 1964, page 3
  - type: GX-80
    family: diode
    material: Ge
    outline: DO-7
    leads: { order: K-A, view: 'axial, the band is at the cathode' }
    ratings: { V_R: 40 V, I_F: 30 mA, T_Jmax: 75 degC }
    limits:
      - { symbol: V_F, max: 0.9 V, at: { I_F: 5 mA } }
      - { symbol: I_R, max: 20 uA, at: { V_R: 10 V, T: 25 degC } }
    source: [House sheet GX page 9, House handbook of 1966]
`
