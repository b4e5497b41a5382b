#!/usr/bin/env python3
"""SciPy's least squares on the equations that neck_bench writes to standard input.

First line: rows and columns; then one row a line, its right side last; then the solution found by neck_bench.
"""
import sys
import time


def best_of(job, rounds=200):
    """Seconds of the fastest of several runs, and what it gave."""
    best = float("inf")
    for _ in range(rounds):
        start = time.perf_counter()
        found = job()
        best = min(best, time.perf_counter() - start)
    return best, found


def main():
    try:
        import numpy
        import scipy
        from scipy.optimize import least_squares, lsq_linear
    except ImportError:
        sys.stdin.read()
        print("baseline: python3-scipy is not there, nothing to compare with")
        return
    numbers = [float(word) for word in sys.stdin.read().split()]
    rows, columns = int(numbers[0]), int(numbers[1])
    table = numpy.array(numbers[2:2 + rows * (columns + 1)]).reshape(rows, columns + 1)
    design, right = table[:, :-1].copy(), table[:, -1].copy()
    ours = numpy.array(numbers[2 + rows * (columns + 1):])

    def general():
        return least_squares(lambda x: design @ x - right, numpy.zeros(columns), jac=lambda x: design, method="lm").x

    def linear():
        return lsq_linear(design, right).x

    def plain():  # solution and covariance
        numpy.linalg.inv(design.T @ design)
        return numpy.linalg.lstsq(design, right, rcond=None)[0]

    print(f"baseline, {rows} rows and {columns} unknowns, SciPy {scipy.__version__}; largest difference to ours in"
          " prior sd:")
    for name, job in (("scipy least_squares", general), ("scipy lsq_linear", linear),
                      ("numpy lstsq and covariance", plain)):
        seconds, found = best_of(job)
        print(f"  {name}: {seconds * 1e6:.0f} us a fit, difference {numpy.max(numpy.abs(found - ours)):.1e}")


if __name__ == "__main__":
    main()
