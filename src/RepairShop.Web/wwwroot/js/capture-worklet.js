// Hands the input's samples on, block by block, untouched. A frame number that does not follow on the one before is a block lost.
const size = 1024;

registerProcessor("capture", class extends AudioWorkletProcessor {
  constructor() {
    super();
    this.channels = null;
    this.filled = 0;
    this.next = -1;
    this.lost = 0;
  }

  process(inputs) {
    const input = inputs[0];
    if (!input || input.length === 0) {
      return true; // not connected yet
    }
    if (this.next >= 0 && currentFrame !== this.next) {
      this.lost += 1;
    }
    this.next = currentFrame + input[0].length;
    if (!this.channels || this.channels.length !== input.length) {
      this.channels = input.map(() => new Float32Array(size));
      this.filled = 0;
    }
    for (let channel = 0; channel < input.length; channel++) {
      this.channels[channel].set(input[channel], this.filled);
    }
    this.filled += input[0].length;
    if (this.filled >= size) {
      this.port.postMessage({ channels: this.channels, lost: this.lost }, this.channels.map(samples => samples.buffer));
      this.channels = null;
      this.filled = 0;
      this.lost = 0;
    }
    return true;
  }
});
