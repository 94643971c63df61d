"""The uptake chain by numpy, as the benchmark of the same name in TypeScript does it: one core, blocks of 10,000, mean, SD and 95 % limits included.

Usage: python monte-carlo.py TRIALS [sfc64|pcg64]
"""

import sys
import time

import numpy as np

trials = int(sys.argv[1])
generator = np.random.SFC64 if sys.argv[2:] != ["pcg64"] else np.random.PCG64
block = 10_000


def chain(rng, n):
    m_i2 = rng.normal(253.809, 0.012, n)
    c = rng.normal(0.05, 0.0001, n)
    v = rng.normal(50.0, 0.05, n)
    c_t = rng.normal(0.1002, 0.0001, n)
    v_t = rng.normal(12.34, 0.04, n)
    v_tot = rng.normal(100.0, 0.1, n)
    v_a = rng.normal(25.0, 0.03, n)
    m = rng.normal(1.0143, 0.001, n)
    return m_i2 * (c * v - 0.5 * c_t * v_t * v_tot / v_a) / m


def run(seed):
    rng = np.random.Generator(generator(seed))
    out = np.empty(trials)
    for first in range(0, trials, block):
        n = min(block, trials - first)
        out[first : first + n] = chain(rng, n)
    low, high = int(0.025 * trials), int(0.975 * trials)
    parted = np.partition(out, (low, high))
    return out.mean(), out.std(ddof=1), parted[low], parted[high]


run(0)
best = []
result = None
for seed in range(1, 4):
    start = time.perf_counter()
    result = run(seed)
    best.append(time.perf_counter() - start)
print(sorted(best)[1], *result)
