"""Optima of random seasons by a general integer solver: HiGHS, as SciPy ships it (pip install scipy).

Run by hand: `python tests/benches/seasons.py > tests/numbers/data/seasons_highs.csv`. The seasons are those of
`tests/numbers/planning/nursery.rs`, drawn by the same generator; the model is the one of
`tests/numbers/planning/solver.rs`. A row: females, males, pots, shape, seed, best value (nan where no plan keeps every
limit). Median and greatest seconds of each kind go to standard error.
"""

import sys
import time

import numpy
import scipy
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

SEASONS = [(8, 8, 90), (12, 12, 120), (20, 20, 150), (40, 40, 200)]
SHAPES = ["equal", "equal-capped", "equal-capped-kin", "unequal", "unequal-capped-kin"]
SEEDS = range(1, 21)


class Draw:
    """The linear congruential generator of the nursery."""

    def __init__(self, state):
        self.state = state

    def below(self, bound):
        self.state = (self.state * 6364136223846793005 + 1442695040888963407) % 2**64
        return (self.state >> 33) % bound


class Season:
    def __init__(self, females, males, pots, seed):
        draw = Draw(seed)
        merit = lambda n: [draw.below(10000) / 100 for _ in range(n)]
        of_females, of_males = merit(females), merit(males)
        self.seeds = [(1 + draw.below(3), draw.below(3)) for _ in range(females)]
        self.donors = [(1 + draw.below(4), draw.below(3)) for _ in range(males)]
        self.lots = [1 + draw.below(3) for _ in range(males)]
        sizes = [6 + draw.below(15) for _ in range(females)]
        self.sizes = numpy.array([[size] * males for size in sizes])
        self.value, self.inbreeding, self.kinship = numpy.zeros((3, females, males))
        for seed in range(females):
            for lot in range(males):
                inbreeding = draw.below(5) / 16
                spread = draw.below(1000) / 100
                mean = 0.5 * (of_females[seed] + of_males[lot])
                self.value[seed, lot] = mean + spread - 40 * inbreeding
                self.inbreeding[seed, lot] = inbreeding
                self.kinship[seed, lot] = draw.below(16) / 64
        self.pots = pots

    def best(self, shape):
        females, males = self.value.shape
        count = females * males
        at = numpy.arange(count).reshape(females, males)
        rows, low, high = [], [], []

        def limit(choices, weights, least, most):
            row = numpy.zeros(count)
            row[choices] = weights
            rows.append(row), low.append(least), high.append(most)

        everything, none = numpy.arange(count), -numpy.inf
        for seed, (pods, _) in enumerate(self.seeds):
            limit(at[seed], 1, none, pods)
        for lot, uses in enumerate(self.lots):
            limit(at[:, lot], 1, none, min(uses, self.donors[lot][0]))
        sizes = numpy.full_like(self.sizes, 10) if shape.startswith("equal") else self.sizes
        limit(everything, sizes.ravel(), none, self.pots)
        most = numpy.repeat([float(pods) for pods, _ in self.seeds], males)
        if "capped" in shape:
            most[(self.inbreeding > 0.125 + 1e-12).ravel()] = 0
            for line in range(3):
                on = [at[seed] for seed, parent in enumerate(self.seeds) if parent[1] == line]
                by = [at[:, lot] for lot, parent in enumerate(self.donors) if parent[1] == line]
                for choices in (on, by):
                    limit(numpy.concatenate(choices or [everything[:0]]), 1, 1, numpy.inf)
        if "kin" in shape:
            limit(everything, (self.kinship - 0.08).ravel(), none, 1e-12)
        start = time.perf_counter()
        found = milp(
            -self.value.ravel(),
            constraints=LinearConstraint(csr_matrix(numpy.array(rows)), low, high),
            integrality=numpy.ones(count),
            bounds=Bounds(0, most),
            options={"mip_rel_gap": 0.0},
        )
        seconds = time.perf_counter() - start
        return (-found.fun if found.status == 0 else float("nan")), seconds


if __name__ == "__main__":
    print(f"# HiGHS of SciPy {scipy.__version__}, every optimum proved; made by tests/benches/seasons.py")
    print("females,males,pots,shape,seed,best")
    for females, males, pots in SEASONS:
        for shape in SHAPES:
            taken = []
            for seed in SEEDS:
                best, seconds = Season(females, males, pots, seed).best(shape)
                print(f"{females},{males},{pots},{shape},{seed},{best:.6f}")
                taken.append(seconds)
            middle = numpy.median(taken)
            print(f"{females} x {males} {shape}: {middle:.3f} s, {max(taken):.3f} s", file=sys.stderr)
