"""Signals of exposures made by SciPy, for a truth that owes nothing to the analysis or to this project's synthesiser.

Argument: how many, and a seed. Light is drawn 32 times finer than it is recorded, passed through SciPy's own high-pass (bilinear transform)
and brought down to the recording's rate by its polyphase filter, as a converter's low-pass does; noise, hum, offset and polarity follow. The
truth comes from the fine grid before all that: the 50 % crossings between its points, and Simpson's rule for the light.
Prints a line of JSON per signal: sampleRateHz, cornerHz (null for DC), decibels, hum, width50, effective (seconds), samples (base64 of
32-bit floats). Each holds a reference exposure of 1/30 s first.
"""

import base64
import json
import sys

import numpy
from scipy import integrate, signal

FINE = 32
LAWS = [
    lambda s: s,
    lambda s: s * s,
    lambda s: numpy.sin(numpy.pi / 2 * s) ** 2,
    lambda s: numpy.sin(numpy.pi / 2 * s),
    lambda s: 1 - numpy.cos(numpy.pi / 2 * s),
    lambda s: (2 * numpy.arccos(1 - s) - numpy.sin(2 * numpy.arccos(1 - s))) / numpy.pi,
]


def pulse(t, start, opening, dwell, closing, law_up, law_down):
    up = law_up(numpy.clip((t - start) / opening, 0, 1))
    down = law_down(numpy.clip((start + opening + dwell + closing - t) / closing, 0, 1))
    return numpy.minimum(up, down)


def crossings(t, light):
    above = light > 0.5
    places = numpy.flatnonzero(above[1:] != above[:-1])
    return [t[i] + (0.5 - light[i]) / (light[i + 1] - light[i]) * (t[i + 1] - t[i]) for i in (places[0], places[-1])]


def made(random, index):
    rate = [48000, 48000, 44100, 96000][index % 4]
    mark = [1, 1 / 2, 1 / 4, 1 / 8, 1 / 15, 1 / 30, 1 / 60, 1 / 125, 1 / 250, 1 / 500][index % 10]
    corner = None if random.random() < 0.3 else float(numpy.exp(random.uniform(numpy.log(0.5), numpy.log(10))))
    decibels, hum = [(40, 0), (40, 0), (20, 0), (40, 0.1)][random.integers(4)]
    opening, closing = (min(random.uniform(0.0003, 0.0015), 0.45 * mark) for _ in range(2))
    laws = LAWS[random.integers(len(LAWS))], LAWS[random.integers(len(LAWS))]
    first = random.uniform(0.05, 0.3)
    second = first + 1 / 30 + random.uniform(0.3, 0.5)
    end = second + mark + random.uniform(0.1, 0.3)
    t = numpy.arange(int(end * rate) * FINE) / (rate * FINE)
    reference = pulse(t, first, opening, 1 / 30, closing, *laws)
    light = pulse(t, second, opening, mark - (opening + closing) / 2, closing, *laws)
    begin, finish = crossings(t, light)
    effective = float(integrate.simpson(light, dx=1 / (rate * FINE)))
    seen = reference + light
    if corner is not None:
        seen = signal.lfilter(*signal.bilinear([1, 0], [1, 2 * numpy.pi * corner], fs=rate * FINE), seen)
    level = float(numpy.exp(random.uniform(numpy.log(0.03), numpy.log(0.8))))
    samples = level * signal.resample_poly(seen, 1, FINE)
    samples += level * 10 ** (-decibels / 20) * random.standard_normal(len(samples))
    if hum:
        n = numpy.arange(len(samples)) / rate
        mains = random.choice([50, 60]) + random.uniform(-0.05, 0.05)
        for harmonic, share in ((1, 1), (2, 0.2), (3, 0.3), (5, 0.1)):
            samples += hum * share * level * numpy.sin(2 * numpy.pi * mains * harmonic * n + random.uniform(0, 2 * numpy.pi))
    samples = random.choice([-1, 1]) * samples + random.uniform(-0.1, 0.1)
    return {
        "sampleRateHz": rate, "cornerHz": corner, "decibels": decibels, "hum": hum, "width50": finish - begin, "effective": effective,
        "samples": base64.b64encode(samples.astype("<f4").tobytes()).decode(),
    }


generator = numpy.random.default_rng(int(sys.argv[2]))
for number in range(int(sys.argv[1])):
    print(json.dumps(made(generator, number)))
