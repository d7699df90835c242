"""Take-off and landing of the twin of the tests, computed apart from the crate.

Steps of 2 ms with the midpoint rule, plain Python, no shared code. Prints the
figures that tests/oracle.rs expects. Run: python3 twin.py
"""
from math import acos, pi, sin, sqrt, tan, radians, cos

G = 9.80665
# Day: 300 m of the standard atmosphere, 10 K warmer; 6 kt of headwind, half counts.
T_K = 288.15 - 0.0065 * 300 + 10
P = 101325 * ((288.15 - 0.0065 * 300) / 288.15) ** (G / (287.05287 * 0.0065))
RHO = P / (287.05287 * T_K)
A = sqrt(1.4 * 287.05287 * T_K)
KT = 1852 / 3600
W = 3 * KT
M = 42000.0
S, B, H = 105.0, 30.0, 2.0
NEAR = (16 * H / B) ** 2
K = 0.045
K_GROUND = K - S / (pi * B * B) * (1 - NEAR / (1 + NEAR))
GRADE = 0.004


def true_from_calibrated(cas):
    qc = 101325 * ((1 + 0.2 * (cas / sqrt(1.4 * 287.05287 * 288.15)) ** 2) ** 3.5 - 1)
    return sqrt(5 * ((qc / P + 1) ** (2 / 7) - 1)) * A


def patch(x, c):
    return max(0.0, 1 - abs(x - c) / 50)


def rolling_at(x):
    return 0.03 + 0.09 * patch(x, 600) + 0.05 * patch(x, 900)


def braking_at(x):
    return 0.25 - 0.15 * patch(x, 1000)


# Gear: moments about the main wheels.
L_BASE, CG_H, AHEAD = 12.0, 2.8, (0.55 - 0.22) * 3.6


def loads(n, mu_nose, mu_main):
    nose = n * (AHEAD + mu_main * CG_H) / (L_BASE + (mu_main - mu_nose) * CG_H)
    return nose, n - nose


DELTA, THETA = P / 101325, T_K / 288.15
STATIC = 90000 * min(DELTA, 1) * (1 - 2 * max(0, THETA - 303.15 / 288.15)) * (1 - 0.03)
BYPASS = 5.0
G0 = 0.0606 * BYPASS + 0.6337


def thrust(v, n):
    m = v / A
    f = 1 - 0.377 * (1 + BYPASS) * m / sqrt((1 + 0.82 * BYPASS) * G0)
    return n * STATIC * (f + (0.23 + 0.19 * sqrt(BYPASS)) * m * m)


IDLE = 0.04 * 90000


def accelerating(cl, cd, n):
    def a(x, v):
        q = 0.5 * RHO * S * (v + W) ** 2
        mu = rolling_at(x)
        return (thrust(v + W, n) - cd * q - mu * (M * G - cl * q) - M * G * GRADE) / M
    return a


def slowing(cl, cd, n, braked):
    def a(x, v):
        q = 0.5 * RHO * S * (v + W) ** 2
        free = min(rolling_at(x), 0.02)
        main_mu = braking_at(x) if braked else free
        nose, main = loads(M * G - cl * q, free, main_mu)
        return (n * IDLE - cd * q - main_mu * main - free * nose - M * G * GRADE) / M
    return a


def march(a, x, v, stop, dt=0.002):
    """Until stop(x, v, t) turns from negative to positive."""
    t = 0.0
    before = stop(x, v, t)
    while before < 0:
        am = a(x, v)
        xm, vm = x + 0.5 * dt * v, v + 0.5 * dt * am
        x1, v1 = x + dt * vm, v + dt * a(xm, vm)
        after = stop(x1, v1, t + dt)
        if after >= 0:
            f = before / (before - after)
            return x + f * (x1 - x), v + f * (v1 - v)
        x, v, t, before = x1, v1, t + dt, after
    return x, v


def until_faster(u):
    return lambda x, v, t: v - u


def until_time(d):
    return lambda x, v, t: t - d


def until_stopped(x, v, t):
    return -v


VSR = sqrt(2 * M * G / (RHO * S * 2.0))
VMCA, VMCG = true_from_calibrated(96 * KT), true_from_calibrated(92 * KT)
VR = max(1.08 * VSR, 1.05 * VMCA)
VLOF = max(1.12 * VSR, VR)
V2 = max(1.18 * VSR, 1.13 * VSR, 1.10 * VMCA, VLOF)
CL_LOF = M * G / (0.5 * RHO * S * VLOF ** 2)


def go_on(x, v, n, added):
    cd = 0.030 + 0.02 + added
    roll = accelerating(0.4, cd + K_GROUND * 0.4 ** 2, n)
    up = accelerating(CL_LOF, cd + K_GROUND * CL_LOF ** 2, n)
    if v < VR - W:
        x, v = march(roll, x, v, until_faster(VR - W))
    rotation = x
    x, v = march(up, x, v, until_time(2.0))
    if v < VLOF - W:
        x, v = march(up, x, v, until_faster(VLOF - W))
    lof, screen = max(v + W, VLOF), max(V2, v + W)
    mean = 0.5 * (lof + screen)
    q = 0.5 * RHO * S * mean ** 2
    cl = M * G / q
    excess = (thrust(mean, n) - q * (cd + K * cl * cl)) / (M * G) - GRADE
    energy = ((screen ** 2 - lof ** 2) / (2 * G) + 35 * 0.3048) / excess
    radius = mean ** 2 / (G * 0.19)
    arc = radius * sin(acos(1 - 35 * 0.3048 / radius))
    air = max(energy, arc)
    return rotation, x, x + air * (mean - W) / mean


CD_STOP = 0.030 + 0.02 + 0.06 + K_GROUND * 0.05 ** 2


def failure(vef):
    x, v = march(accelerating(0.4, 0.05 + K_GROUND * 0.16, 2), 0.0, 0.0, until_faster(vef))
    x, v = march(accelerating(0.4, 0.05 + 0.012 + K_GROUND * 0.16, 1), x, v, until_time(1.0))
    go = go_on(x, v, 1, 0.012)[2]
    one = march(slowing(0.05, CD_STOP + 0.012, 1, True), x + 2 * v, v, until_stopped)[0]
    xa, va = march(accelerating(0.4, 0.05 + K_GROUND * 0.16, 2), 0.0, 0.0, until_faster(v))
    both = march(slowing(0.05, CD_STOP, 2, True), xa + 2 * va, va, until_stopped)[0]
    return go, one, both, v


def balanced():
    low, high = VMCG - W, VR - W - 0.2
    for _ in range(24):
        mid = 0.5 * (low + high)
        go, one, both, _v = failure(mid)
        low, high = (mid, high) if go > max(one, both) else (low, mid)
    return failure(0.5 * (low + high))


def landing():
    vs = sqrt(2 * M * G / (RHO * S * 2.6))
    threshold = max(1.25, 1.23) * vs
    touch = 0.95 * threshold
    timed = 7 * 0.5 * (threshold + touch)
    vf = 1.23 * vs
    r = vf ** 2 / (0.2 * G)
    path = radians(3)
    geometric = (50 * 0.3048 - r * (1 - cos(path))) / tan(path) + r * sin(path)
    mean = 0.5 * (threshold + touch)
    air = max(timed, geometric) * (mean - W) / mean
    cd = 0.065 + 0.02
    x, v = march(slowing(0.5, cd + K_GROUND * 0.25, 2, False), air, touch - W, until_time(1.5))
    stop = march(slowing(0.05, cd + 0.06 + K_GROUND * 0.0025, 2, True), x, v, until_stopped)[0]
    return air, x, stop


if __name__ == "__main__":
    print("all engines: rotation, lift-off, screen", *go_on(0.0, 0.0, 2, 0.0))
    print("balanced: go, stop one out, stop all, V1 ground speed", *balanced(), "limit", VR - W)
    print("landing: touchdown, brakes on, stop", *landing())
