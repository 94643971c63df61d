"""Variance components by Henderson's method of fitting constants, for data/reference/variance-components.json.

Sequential sums of squares by projections (numpy), held against the residual sums of squares of ordinary least squares (statsmodels); their expectations as traces of projections.
Run: python variance-components.py > variance-components.json (python 3, numpy, pandas, statsmodels; versions are written into the file).
"""
import json
import random
import sys

import numpy as np
import pandas as pd
import statsmodels
import statsmodels.formula.api as smf

LEVELS = ["day", "soak", "flask"]


def rows(seed, treatments, soaks, flasks, days):
    draw = random.Random(seed)
    effect = {d: draw.gauss(0, 3) for d in range(days)}
    out = []
    for t in range(treatments):
        for s in range(soaks):
            soak = draw.gauss(0, 4)
            for f in range(flasks(t, s)):
                flask = draw.gauss(0, 2)
                day = (s + f) % days
                for _ in range(1 + (s + t + f) % 2):
                    y = round(100 + 10 * t + effect[day] + soak + flask + draw.gauss(0, 1), 2)
                    out.append((y, f"t{t}", f"d{day}", f"t{t}s{s}", f"t{t}s{s}f{f}"))
    return pd.DataFrame(out, columns=["y", "treatment", "day", "soak", "flask"])


def projection(frame, names):
    x = np.hstack([pd.get_dummies(frame[n]).to_numpy(float) for n in names])
    return x @ np.linalg.pinv(x)


def henderson(frame):
    n = len(frame)
    order = ["treatment", *LEVELS]
    indicators = [pd.get_dummies(frame[l]).to_numpy(float) for l in LEVELS] + [np.eye(n)]
    steps = [projection(frame, order[: k + 1]) for k in range(len(order))] + [np.eye(n)]
    squares, degrees, expected = [], [], []
    y = frame.y.to_numpy()
    for before, after in zip(steps, steps[1:]):
        m = after - before
        squares.append(float(y @ m @ y))
        degrees.append(int(round(np.trace(m))))
        expected.append([float(np.trace(z.T @ m @ z)) for z in indicators])
    # The same sums of squares as differences of what ordinary least squares leaves.
    for k, level in enumerate(LEVELS):
        before = smf.ols("y ~ " + " + ".join(f"C({o})" for o in order[: k + 1]), frame).fit()
        after = smf.ols("y ~ " + " + ".join(f"C({o})" for o in order[: k + 2]), frame).fit()
        assert abs((before.ssr - after.ssr) / squares[k] - 1) < 1e-8, level
    assert abs(after.ssr / squares[-1] - 1) < 1e-8
    components = np.linalg.solve(np.array(expected), np.array(squares))
    return {
        "values": frame.y.tolist(),
        **{l: frame[l].tolist() for l in ["treatment", *LEVELS]},
        "degreesOfFreedom": degrees,
        "components": components.tolist(),
    }


json.dump(
    {
        "source": "invented data, drawn at random by data/reference/variance-components.py",
        "provenance": f"computed with Python {sys.version.split()[0]}, numpy {np.__version__}, pandas {pd.__version__}, statsmodels {statsmodels.__version__}",
        "levels": [*LEVELS, "titration"],
        "sets": [
            {"name": "unbalanced, days crossed", **henderson(rows(1, 3, 4, lambda t, s: 1 + (t + s) % 3, 4))},
            {"name": "two treatments, two days", **henderson(rows(2, 2, 5, lambda t, s: 2 + s % 2, 2))},
            {"name": "few soaks", **henderson(rows(3, 3, 2, lambda t, s: 3, 2))},
        ],
    },
    sys.stdout,
    indent="\t",
)
