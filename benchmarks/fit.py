"""Fits a diode or a transistor with lmfit: the peer of benchmarks/fit.ts.

Reads a problem (readings with sigma, parameters with first values) as JSON from standard input and prints the seconds
of each run of the whole minimisation with its covariance, chi-square and the version of lmfit. The laws are whole-array
numpy; the inner voltages of a transistor start from those of the evaluation before, as ours do.
"""
import json
import sys
import time

import lmfit
import numpy as np
from scipy.special import wrightomega

problem = json.load(sys.stdin)
VT = problem["vt"]
TARGETS = problem["targets"]
VALUE = np.array([t["value"] for t in TARGETS])
SIGMA = np.array([t["sigma"] for t in TARGETS])


def column(name, default=np.nan):
    return np.array([t.get(name, default) for t in TARGETS], dtype=float)


def diode(p):
    step = p["n"] * VT
    saturation, series = p["I_S"], p["R_S"]
    a = saturation * series / step
    return (step / series) * wrightomega(np.log(a) + a + column.v / step).real - saturation


class Transistor:
    """Gummel and Poon in forward operation, both kinds of drive in one array."""

    def __init__(self):
        vbe, vce, ib = column("V_BE"), column("V_CE"), column("I_B")
        keys = [(t.get("V_BE"), t.get("V_CE"), t.get("I_B")) for t in TARGETS]
        order = {k: i for i, k in enumerate(dict.fromkeys(keys))}
        self.at = np.array([order[k] for k in keys])
        first = np.array([keys.index(k) for k in order])
        self.vbe, self.vce, self.ib = vbe[first], vce[first], ib[first]
        self.by_voltage = ~np.isnan(self.vbe)
        self.drive = np.where(self.by_voltage, self.vbe, self.ib)
        self.is_collector = np.array([t["of"] == "I_C" for t in TARGETS])
        self.inner = None

    def cold(self, p):
        guess = p["N_F"] * VT * np.log1p(np.where(self.by_voltage, 1.0, self.ib) * p["B_F"] / p["I_S"])
        x = np.where(self.by_voltage, np.minimum(self.vbe, 0.7), guess)
        return x, x - self.vce

    def law(self, p, x, y):
        step_f, step_e = p["N_F"] * VT, p["N_E"] * VT
        ef, er, el = np.exp(x / step_f), np.exp(y / VT), np.exp(x / step_e)
        forward, reverse = p["I_S"] * (ef - 1), p["I_S"] * (er - 1)
        forward_x, reverse_y = p["I_S"] * ef / step_f, p["I_S"] * er / VT
        q1 = 1 / (1 - y / p["V_AF"])
        root = np.sqrt(1 + 4 * forward / p["I_KF"])
        qb = q1 * (1 + root) / 2
        qb_x = q1 * forward_x / (p["I_KF"] * root)
        qb_y = q1 * qb / p["V_AF"]
        transport = (forward - reverse) / qb
        ic = transport - reverse
        ib = forward / p["B_F"] + p["I_SE"] * (el - 1) + reverse
        return (
            ic,
            ib,
            (forward_x - transport * qb_x) / qb,
            (-reverse_y - transport * qb_y) / qb - reverse_y,
            forward_x / p["B_F"] + p["I_SE"] * el / step_e,
            reverse_y,
        )

    def settle(self, p, x, y):
        re, rb, rc = p["R_E"], p["R_B"], p["R_C"]
        for _ in range(100):
            ic, ib, ic_x, ic_y, ib_x, ib_y = self.law(p, x, y)
            f = np.where(self.by_voltage, x + rb * ib + re * (ic + ib) - self.drive, ib - self.drive)
            a = np.where(self.by_voltage, 1 + rb * ib_x + re * (ic_x + ib_x), ib_x)
            b = np.where(self.by_voltage, rb * ib_y + re * (ic_y + ib_y), ib_y)
            g = x - y + rc * ic + re * (ic + ib) - self.vce
            c = 1 + rc * ic_x + re * (ic_x + ib_x)
            d = -1 + rc * ic_y + re * (ic_y + ib_y)
            det = a * d - b * c
            dx = np.clip((f * d - b * g) / det, -0.1, 0.1)
            dy = np.clip((a * g - f * c) / det, -1.0, 1.0)
            x, y = x - dx, y - dy
            most = np.abs(dx).max() + np.abs(dy).max()
            if most < 1e-10:
                return x, y
            if not most < 10:
                return None
        return None

    def __call__(self, p):
        with np.errstate(all="ignore"):
            found = self.settle(p, *self.inner) if self.inner is not None else None
            if found is None:
                found = self.settle(p, *self.cold(p))
            if found is None:
                return np.full(len(TARGETS), 1e6)
            self.inner = found
            ic, ib = self.law(p, *found)[:2]
        return np.where(self.is_collector, ic[self.at], ib[self.at])


LOG = {p["symbol"] for p in problem["parameters"] if p["scale"] == "log"}
HELD = {p["symbol"]: p["value"] for p in problem["parameters"] if not p["isFree"]}


def once():
    law = diode if problem["kind"] == "diode" else Transistor()
    start = lmfit.Parameters()
    for p in problem["parameters"]:
        if p["isFree"]:
            start.add(p["symbol"], np.log(p["start"]) if p["symbol"] in LOG else p["start"])

    def residual(q):
        p = dict(HELD)
        for name, value in q.valuesdict().items():
            p[name] = np.exp(value) if name in LOG else value
        return (law(p) - VALUE) / SIGMA

    began = time.perf_counter()
    result = lmfit.minimize(residual, start)
    return time.perf_counter() - began, result


column.v = column("V_F")
once()
runs = [once() for _ in range(problem["runs"])]
result = runs[-1][1]
print(json.dumps({
    "seconds": [r[0] for r in runs],
    "chisqr": float(result.chisqr),
    "evaluations": int(result.nfev),
    "lmfit": lmfit.__version__,
}))
