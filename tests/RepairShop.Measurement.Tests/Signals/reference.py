"""The same steps by a general-purpose numerics library, for comparison with the analysis.

Reads one line of JSON per signal from standard input: sampleRateHz, tauSeconds (null for DC), offset, samples (light upwards), closedTo,
openFrom, openTo, closedFrom (sample numbers of surely quiet and surely open parts). Writes one line of JSON per signal: straight (the
high-pass undone), opening, closing (50 % crossings in seconds), integral (of light over level, in seconds).
"""

import json
import sys

import numpy
from scipy import integrate, interpolate, optimize, signal


def straighten(samples, rate, tau):
    if tau is None:
        return samples
    # The analogue high-pass s/(s + 1/tau) made digital by the bilinear transform, then turned upside down.
    b, a = signal.bilinear([1, 0], [1, 1 / tau], fs=rate)
    return signal.lfilter(a, b * [1, 1 - 1e-12], samples)


def crossing(light, level, start, end):
    # A smoothing spline through the edge, its variance that of the noise beside it, and the root of spline minus level.
    x = numpy.arange(start, end)
    noise = numpy.std(numpy.diff(light[:200])) / numpy.sqrt(2)
    spline = interpolate.UnivariateSpline(x, light[start:end], w=numpy.full(len(x), 1 / max(noise, 1e-9)), s=len(x))
    fine = numpy.linspace(start, end - 1, 20 * len(x))
    above = spline(fine) > level
    flips = numpy.flatnonzero(above[1:] != above[:-1])
    middle = flips[len(flips) // 2]
    return optimize.brentq(lambda t: spline(t) - level, fine[middle], fine[middle + 1])


for line in sys.stdin:
    given = json.loads(line)
    rate = given["sampleRateHz"]
    samples = numpy.array(given["samples"]) - given["offset"]
    light = straighten(samples, rate, given["tauSeconds"])
    closed = numpy.median(light[max(0, given["closedTo"] - 400):given["closedTo"]])
    light = light - closed
    level = numpy.mean(light[given["openFrom"]:given["openTo"]])
    opening = crossing(light, level / 2, given["closedTo"], given["openFrom"])
    closing = crossing(light, level / 2, given["openTo"], given["closedFrom"])
    part = light[given["closedTo"]:given["closedFrom"]]
    print(json.dumps({
        "straight": light[given["closedTo"]:given["closedFrom"]].tolist(),
        "opening": opening / rate,
        "closing": closing / rate,
        "integral": float(integrate.simpson(part, dx=1 / rate) / level),
    }))
