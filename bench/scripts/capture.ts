// Runs on the audio thread: hands on what the microphone brings, in blocks,
// each with the frame of the audio clock at which it begins.

declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;
declare const currentFrame: number;

export interface Block {
  frame: number;
  samples: Float32Array;
}

const blockFrames = 512; // four of the audio thread's rounds, 11 ms at 48 kHz

class Capture extends AudioWorkletProcessor {
  #samples = new Float32Array(blockFrames);
  #filled = 0;

  process(inputs: Float32Array[][]): boolean {
    const channels = inputs[0] ?? [];
    const frames = channels[0]?.length ?? 128;
    for (let i = 0; i < frames; i++) {
      let sum = 0;
      for (const channel of channels) sum += channel[i] ?? 0;
      this.#samples[this.#filled++] = channels.length > 1 ? sum / channels.length : sum;
      if (this.#filled === blockFrames) this.#hand(currentFrame + i + 1 - blockFrames);
    }
    return true;
  }

  #hand(frame: number): void {
    this.port.postMessage({ frame, samples: this.#samples } satisfies Block, [this.#samples.buffer]);
    this.#samples = new Float32Array(blockFrames);
    this.#filled = 0;
  }
}

registerProcessor("capture", Capture);
