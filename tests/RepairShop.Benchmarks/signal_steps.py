"""SciPy's side of the signal benchmark: offset, high-pass undone, edges found, 50 % crossings by smoothing spline, light by Simpson's rule.

Arguments: a file of 32-bit floats, samples a second, the high-pass' time constant in seconds (0 for DC). The time constant is given to it,
where the analysis has to find it. Prints the milliseconds its steps took.
"""

import sys
import time

import numpy
from scipy import integrate, interpolate, ndimage, signal

samples = numpy.fromfile(sys.argv[1], dtype=numpy.float32)
rate, tau = float(sys.argv[2]), float(sys.argv[3])

start = time.perf_counter()
light = samples.astype(float) - numpy.median(samples)
step = ndimage.uniform_filter1d(light, 48)
step = step[96:] - step[:-96]
peaks, _ = signal.find_peaks(numpy.abs(step), height=0.2 * numpy.abs(step).max(), distance=90)
edges = [p + 48 for p in peaks]
figures = []
for opening, closing in zip(edges[::2], edges[1::2]):
    first, end = max(0, opening - 600), min(len(light), closing + 600)
    part = light[first:end]
    if tau > 0:
        b, a = signal.bilinear([1, 0], [1, 1 / tau], fs=rate)
        part = signal.lfilter(a, b, part)
    part = part - numpy.median(part[:400])
    level = numpy.mean(part[opening - first + 48:max(closing - first - 48, opening - first + 50)])
    places = []
    for edge in (opening - first, closing - first):
        x = numpy.arange(max(0, edge - 60), min(len(part), edge + 60))
        noise = numpy.std(numpy.diff(part[:400])) / numpy.sqrt(2)
        spline = interpolate.UnivariateSpline(x, part[x], w=numpy.full(len(x), 1 / noise), s=len(x))
        fine = numpy.linspace(x[0], x[-1], 20 * len(x))
        above = spline(fine) > level / 2
        places.append(fine[numpy.flatnonzero(above[1:] != above[:-1])[0]])
    figures.append(((places[1] - places[0]) / rate, integrate.simpson(part[400:-400], dx=1 / rate) / level))
print(1000 * (time.perf_counter() - start))
