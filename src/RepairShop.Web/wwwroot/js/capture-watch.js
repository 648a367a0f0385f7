// Watches the light: level, clipping and hum while waiting, and where an exposure begins and ends. Only cutting out is done here;
// the figures come from the server, which gets the samples as they are.
window.CaptureWatch = class {
  constructor(rate, channelCount, light) {
    this.rate = rate;
    this.light = light;
    this.length = Math.ceil(rate * 40);
    this.ring = Array.from({ length: channelCount }, () => new Float32Array(this.length));
    this.frame = 0;
    this.lag = Math.round(rate * 0.004); // an edge is judged over 4 ms
    this.noise = 0;
    this.seen = 0;
    this.losses = []; // where a block was lost
    this.exposure = null;
    this.peaks = new Array(channelCount).fill(0);
    this.clipped = false;
    this.loudest = 0;
  }

  get settled() { return this.seen > this.rate * 0.5; }

  get silent() { return this.seen > this.rate * 1.5 && this.loudest < 1e-5; }

  get losing() { return this.losses.some(frame => frame > this.frame - 5 * this.rate); }

  get threshold() { return Math.max(0.008, 10 * this.noise); }

  at(frame, channel = this.light) { return this.ring[channel][((frame % this.length) + this.length) % this.length]; }

  // Takes a block; returns what was cut out when an exposure has ended, else null.
  take(channels, lost, expectedSeconds) {
    if (lost > 0) this.losses = [...this.losses.filter(frame => frame > this.frame - this.length), ...Array(lost).fill(this.frame)];
    let cut = null;
    for (let i = 0; i < channels[0].length; i++) {
      for (let c = 0; c < this.ring.length; c++) {
        const value = (channels[c] || channels[0])[i];
        this.ring[c][this.frame % this.length] = value;
        const size = Math.abs(value);
        if (size > this.peaks[c]) this.peaks[c] = size;
      }
      this.frame++;
      this.seen++;
      cut = this.step(expectedSeconds) || cut;
    }
    this.loudest = Math.max(this.loudest, ...this.peaks);
    this.clipped = this.peaks[this.light] >= 0.999;
    return cut;
  }

  step(expected) {
    if (this.frame <= this.lag) return null;
    const edge = this.at(this.frame - 1) - this.at(this.frame - 1 - this.lag);
    const size = Math.abs(edge);
    const one = this.exposure;
    if (!one) {
      if (this.settled && size > this.threshold) {
        this.exposure = { start: this.frame - this.lag, sign: Math.sign(edge), peak: size, back: 0, last: this.frame };
      } else {
        this.noise += (size - this.noise) / (this.rate * 0.2);
      }
      return null;
    }
    if (size > this.threshold) one.last = this.frame;
    if (edge * one.sign > one.peak && one.back === 0) one.peak = edge * one.sign;
    if (-edge * one.sign > Math.max(this.threshold, 0.12 * one.peak)) one.back = Math.max(one.back, -edge * one.sign);
    const passed = (this.frame - one.start) / this.rate;
    const quiet = (this.frame - one.last) / this.rate;
    // A closing as strong as the opening is one; a weaker one may be the input's droop, so the marked time is waited for.
    const certain = one.back > 0.5 * one.peak;
    const least = certain ? 0 : 1.3 * expected;
    const most = 2.5 * expected + 2;
    if ((one.back > 0 && quiet >= 0.4 && passed > least + 0.4) || passed > most) return this.cutOut(one);
    return null;
  }

  cutOut(one) {
    const from = Math.max(0, one.start - Math.round(this.rate * 0.4), this.frame - this.length + 1);
    const cut = { channels: this.ring.map((_, c) => this.copy(c, from, this.frame)), lost: this.losses.filter(frame => frame >= from).length };
    this.exposure = null;
    this.losses = [];
    return cut;
  }

  copy(channel, from, to) {
    const samples = new Float32Array(to - from);
    for (let i = 0; i < samples.length; i++) samples[i] = this.at(from + i, channel);
    return samples;
  }

  // Height of each channel since it was last asked.
  levels() {
    const heights = this.peaks.slice();
    this.peaks.fill(0);
    return heights;
  }

  // Amplitude of the mains' ground wave in the last half second (Goertzel), where nothing opens.
  hum() {
    const count = Math.round(this.rate * 0.5);
    if (this.exposure || this.frame < count) return null;
    let strongest = { hertz: 0, height: 0 };
    for (const hertz of [50, 60, 100, 120]) {
      const turn = 2 * Math.cos(2 * Math.PI * hertz / this.rate);
      let [one, two] = [0, 0];
      for (let i = this.frame - count; i < this.frame; i++) {
        [one, two] = [this.at(i) + turn * one - two, one];
      }
      const height = 2 * Math.sqrt(Math.max(0, one * one + two * two - turn * one * two)) / count;
      if (height > strongest.height) strongest = { hertz, height };
    }
    return strongest.height > 0.01 ? strongest : null;
  }
};

// Samples as a WAV file of 32-bit floats: nothing is rounded on the way.
window.captureWav = (channels, rate) => {
  const frames = channels[0].length;
  const bytes = frames * channels.length * 4;
  const view = new DataView(new ArrayBuffer(44 + bytes));
  const word = (at, letters) => { for (let i = 0; i < 4; i++) view.setUint8(at + i, letters.charCodeAt(i)); };
  word(0, "RIFF");
  view.setUint32(4, 36 + bytes, true);
  word(8, "WAVE");
  word(12, "fmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 3, true);
  view.setUint16(22, channels.length, true);
  view.setUint32(24, rate, true);
  view.setUint32(28, rate * channels.length * 4, true);
  view.setUint16(32, channels.length * 4, true);
  view.setUint16(34, 32, true);
  word(36, "data");
  view.setUint32(40, bytes, true);
  let at = 44;
  for (let i = 0; i < frames; i++) {
    for (const samples of channels) {
      view.setFloat32(at, samples[i], true);
      at += 4;
    }
  }
  return new Blob([view.buffer], { type: "audio/wav" });
};
