"""Corrected gain with six causes, one million trials: the peer of benchmarks/corrected-gain.ts, in numpy.

Prints the seconds of each of five runs, then mean, standard deviation and both 95 % intervals of the last.
"""
import json
import time

import numpy as np

TRIALS = 1_000_000


def once(rng):
    start = time.perf_counter()
    movement = rng.normal(0.0, 0.007, TRIALS)
    collector_shunt = rng.uniform(-0.01, 0.01, TRIALS)
    base_shunt = rng.uniform(-0.01, 0.01, TRIALS)
    collector_reading = rng.normal(0.0, 2.0e-5, TRIALS)
    base_reading = rng.normal(0.0, 2.0e-7, TRIALS)
    leakage_reading = rng.normal(0.0, 2.0e-6, TRIALS)
    i_c = 5e-3 * (1 + movement + collector_shunt) + collector_reading
    i_b = 5e-5 * (1 + movement + base_shunt) + base_reading
    i_ceo = 2e-4 * (1 + movement + collector_shunt) + leakage_reading
    gain = (i_c - i_ceo) / i_b
    mean = gain.mean()
    sd = gain.std(ddof=1)
    ordered = np.sort(gain)
    inside = int(0.95 * TRIALS)
    low = ordered[int(0.025 * TRIALS)]
    high = ordered[int(0.975 * TRIALS)]
    widths = ordered[inside:] - ordered[: TRIALS - inside]
    at = int(np.argmin(widths))
    seconds = time.perf_counter() - start
    return seconds, mean, sd, [low, high], [ordered[at], ordered[at + inside]]


rng = np.random.default_rng(20)
once(rng)
runs = [once(rng) for _ in range(5)]
_, mean, sd, symmetric, shortest = runs[-1]
print(json.dumps({
    "seconds": [r[0] for r in runs],
    "mean": float(mean),
    "sd": float(sd),
    "symmetric95": [float(v) for v in symmetric],
    "shortest95": [float(v) for v in shortest],
    "numpy": np.__version__,
}))
