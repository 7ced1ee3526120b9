"""Values of self-heated-together.ref.json: python3 self-heated-together.ref.py > self-heated-together.ref.json
(ngspice 39 for the powers at given junction temperatures, SciPy 1.17.1 for the balance)."""

import json
import subprocess
import tempfile

from scipy.optimize import root

MODELS = """.model af NPN(IS=2e-7 NF=1.02 BF=90 VAF=60 IKF=0.2 ISE=1e-9 NE=1.6 BR=10 RB=60 RE=0.4 RC=1.5 XTB=0.6 XTI=3 EG=0.68 TNOM=25)
.model up NPN(IS=4e-14 BF=120 VAF=80 IKF=1.5 ISE=2e-13 NE=1.5 BR=5 RB=4 RE=0.05 RC=0.2 XTB=1.5 XTI=3 EG=1.11 TNOM=25)
.model dn PNP(IS=6e-14 BF=100 VAF=60 IKF=1.2 ISE=3e-13 NE=1.5 BR=5 RB=5 RE=0.06 RC=0.25 XTB=1.5 XTI=3 EG=1.11 TNOM=25)
.model bias D(IS=5e-14 N=1 RS=0.5 XTI=3 EG=1.11 TNOM=25)
"""

CIRCUITS = {
    # germanium, the second base on the first collector: each moves the other
    "direct-coupled": """direct-coupled germanium pair
VCC vcc 0 12
R1 vcc b1 150k
R2 b1 0 22k
R3 vcc c1 1.5k
R4 e1 0 150
Q1 c1 b1 e1 af
Q2 c2 c1 e2 af
R5 e2 0 180
R6 vcc c2 56
""",
    # silicon push-pull, biased by two diodes that stay cool
    "push-pull": """push-pull output stage
VCC vcc 0 18
VM m 0 9
R1 vcc b1 680
D1 b1 x bias
D2 x b2 bias
R2 b2 0 680
Q1 vcc b1 e1 up
Q2 0 b2 e2 dn
R3 e1 m 0.33
R4 e2 m 0.33
""",
}

CASES = [
    ("direct-coupled", 25, {"Q1": 200, "Q2": 150}),
    ("direct-coupled", 45, {"Q1": 200, "Q2": 150}),
    ("direct-coupled", 25, {"Q2": 250}),
    ("push-pull", 25, {"Q1": 20, "Q2": 20}),
    ("push-pull", 40, {"Q1": 25, "Q2": 18}),
    ("push-pull", 40, {"Q1": 25}),
    ("push-pull", 25, {"Q1": 120, "Q2": 120}),
]
CEILING = 200


def solved(name, ambient, junctions):
    """Heat of each transistor with these junction temperatures, by ngspice; and what it carries."""
    parts = [line.split() for line in CIRCUITS[name].splitlines()[1:]]
    lines = [CIRCUITS[name].splitlines()[0]]
    for p in parts:
        line = " ".join(p)
        lines.append(line + f" temp={junctions[p[0]]:.12f}" if p[0] in junctions else line)
    refs = [p[0].lower() for p in parts if p[0][0] == "Q"]
    prints = [f"print {v}" for r in refs for v in (f"@{r}[ic]", f"@{r}[ib]", f"@{r}[p]")]
    deck = "\n".join(lines) + "\n" + MODELS
    deck += f".options temp={ambient} gmin=1e-15 reltol=1e-10 abstol=1e-18 vntol=1e-13 itl1=500 numdgt=15\n"
    deck += ".control\nset numdgt=15\nop\n" + "\n".join(prints) + "\n.endc\n.end\n"
    with tempfile.NamedTemporaryFile("w", suffix=".cir") as f:
        f.write(deck)
        f.flush()
        out = subprocess.run(["ngspice", "-b", f.name], capture_output=True, text=True).stdout
    values = [float(x.split("=")[1]) for x in out.splitlines() if x.startswith("@q")]
    if len(values) != 3 * len(refs):
        raise RuntimeError(out)
    return {r.upper(): values[3 * k : 3 * k + 3] for k, r in enumerate(refs)}


def run(name, ambient, rth):
    refs = list(rth)

    def excess(t):
        at = solved(name, ambient, dict(zip(refs, t)))
        return [ambient + rth[r] * at[r][2] - x for r, x in zip(refs, t)]

    # upwards from the air, each temperature from the heat at those before: the coolest balance, or none
    t = [float(ambient)] * len(refs)
    for _ in range(400):
        moved = excess(t)
        t = [x + min(m, 20) for x, m in zip(t, moved)]
        if max(t) > CEILING:
            return {"outcome": "runaway"}
        if max(abs(m) for m in moved) < 1e-3:
            break
    found = root(excess, t, tol=1e-12)
    junctions = dict(zip(refs, map(float, found.x)))
    at = solved(name, ambient, junctions)
    return {
        "outcome": "stable",
        "junctionC": junctions,
        "parts": {r: {"ic": ic, "ib": ib, "powerW": p} for r, (ic, ib, p) in at.items()},
    }


print(
    json.dumps(
        {
            "made": "ngspice 39 and SciPy 1.17.1, by self-heated-together.ref.py; k and q of CODATA 2014, gmin 1e-15 S; invented devices",
            "signs": "PNP values as ngspice has them; looked for up to 200 degC",
            "circuits": {name: text + MODELS for name, text in CIRCUITS.items()},
            "cases": [
                {"circuit": c, "ambientC": a, "rthKPerW": r, **run(c, a, r)} for c, a, r in CASES
            ],
        }
    )
)
