"""The take-off of the oracle's twin by SciPy's solve_ivp and by this crate, in one run.

The same equations (tests/oracle/twin.py), the same ground, the same search for
the balanced decision speed. SciPy gets the loosest tolerance at which its
balanced length lies as close to a tight solution as this crate's does, but
never has to be closer than 1 cm. Needs python3-scipy. Run from anywhere:

    python3 crates/hardpan-run/benches/against_scipy.py
"""
import subprocess
import sys
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "tests" / "oracle"))

import twin  # noqa: E402
from scipy.integrate import solve_ivp  # noqa: E402
from scipy.optimize import brentq  # noqa: E402

LONGEST_S = 400.0
CLOSE_M = 0.01


def solver(rtol):
    """A march of twin.py by solve_ivp, its end an event."""

    def march(a, x, v, stop, dt=None):
        def rates(t, y):
            return (y[1], a(y[0], y[1]))

        def event(t, y):
            return stop(y[0], y[1], t)

        event.terminal, event.direction = True, 1.0
        found = solve_ivp(
            rates, (0.0, LONGEST_S), (x, v), events=event, rtol=rtol, atol=rtol * 1e-1, max_step=5.0
        )
        return found.y[0, -1], found.y[1, -1]

    return march


def take_off():
    """Balanced length; as many failures as the search of the speed takes."""
    def imbalance(speed):
        go, one, both, _ = twin.failure(speed)
        return 1.0 / go - 1.0 / max(one, both)

    twin.go_on(0.0, 0.0, 2, 0.0)
    low, high = twin.VMCG - twin.W, twin.VR - twin.W - 0.6
    speed = brentq(imbalance, low, high, xtol=1e-5)
    go, one, both, _ = twin.failure(speed)
    return max(go, one, both)


def timed(rtol):
    twin.march = solver(rtol)
    begin = time.perf_counter()
    length = take_off()
    return length, time.perf_counter() - begin


def ours():
    command = ["cargo", "bench", "--quiet", "-p", "hardpan-run", "--bench", "rate"]
    printed = subprocess.run(command, capture_output=True, text=True, check=True, cwd=HERE)
    rows = {}
    for line in printed.stdout.splitlines():
        words = line.split()
        if len(words) == 9:
            rows[words[0]] = {words[i]: float(words[i + 1]) for i in range(1, 9, 2)}
    return rows


def even():
    twin.rolling_at = lambda x: 0.03
    twin.braking_at = lambda x: 0.25


if __name__ == "__main__":
    own = ours()
    for name, change in [("patches", lambda: None), ("even", even)]:
        change()
        exact, _ = timed(1e-10)
        mine = own[name]
        error = abs(max(mine["screen"], mine["stop"]) - exact)
        for rtol in (1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8):
            length, seconds = timed(rtol)
            if abs(length - exact) <= max(error, CLOSE_M):
                break
        print(
            f"{name}: balanced length {exact:.3f} m; this crate off by {error:.4f} m in "
            f"{mine['seconds'] * 1e6:.1f} us ({1 / mine['seconds']:.0f} a second); solve_ivp at "
            f"rtol {rtol:g} off by {abs(length - exact):.4f} m in {seconds * 1e3:.1f} ms; "
            f"ratio {seconds / mine['seconds']:.0f}"
        )
