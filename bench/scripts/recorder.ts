// Recording: the page keeps the microphone's samples from one frame of the audio
// clock on.
import type { Block } from "./capture";
import { reason } from "./page";

export const longestS = 598; // a little under the ten minutes that are marked

/** A Recorder holds one take while it grows. */
export class Recorder {
  onBlock: (samples: Float32Array) => void = () => {};
  onGone: () => void = () => {}; // the microphone was unplugged, or no longer allowed
  inputLatencyS = 0; // from the string to the page, as far as the browser knows

  #blocks: Float32Array[] = [];
  #length = 0;
  #from = Infinity; // frame at which the take begins
  #stream: MediaStream | null = null;
  #nodes: AudioNode[] = [];

  constructor(private context: AudioContext) {}

  get seconds(): number {
    return this.#length / this.context.sampleRate;
  }

  /** open asks for the microphone, as it is: what makes speech clearer would
   * gate and bend a guitar. */
  async open(module: string, device: string): Promise<void> {
    if (!navigator.mediaDevices) throw new Error("Browsers let a page record only on this machine or over HTTPS. Open it at 127.0.0.1.");
    const plain = { echoCancellation: false, noiseSuppression: false, autoGainControl: false, channelCount: 1 };
    try {
      this.#stream = await navigator.mediaDevices.getUserMedia({ audio: device ? { ...plain, deviceId: { exact: device } } : plain });
    } catch (error) {
      throw new Error(microphoneFault(error));
    }
    await this.context.audioWorklet.addModule(module);
    const track = this.#stream.getAudioTracks()[0];
    track?.addEventListener("ended", () => this.onGone());
    const settings = track?.getSettings() as MediaTrackSettings & { latency?: number };
    this.inputLatencyS = settings?.latency ?? 0;
    const source = new MediaStreamAudioSourceNode(this.context, { mediaStream: this.#stream });
    const capture = new AudioWorkletNode(this.context, "capture", { numberOfInputs: 1, numberOfOutputs: 1, channelCount: 1, channelCountMode: "explicit" });
    capture.port.onmessage = (event: MessageEvent<Block>) => this.#take(event.data);
    // Some browsers only run what leads to the loudspeaker; nothing comes out.
    source.connect(capture).connect(this.context.destination);
    this.#nodes = [source, capture];
  }

  /** start begins the take at a time of the audio clock. */
  start(at: number): void {
    this.#from = Math.round(at * this.context.sampleRate);
  }

  /** close releases the microphone. What was recorded stays. */
  close(): void {
    for (const node of this.#nodes) node.disconnect();
    for (const track of this.#stream?.getTracks() ?? []) track.stop();
    this.#nodes = [];
    this.#stream = null;
    this.#from = Infinity;
  }

  /** samples is the whole take. */
  samples(): Float32Array {
    const whole = new Float32Array(this.#length);
    let at = 0;
    for (const block of this.#blocks) {
      whole.set(block, at);
      at += block.length;
    }
    return whole;
  }

  #take({ frame, samples }: Block): void {
    const early = Math.max(0, this.#from - frame);
    if (early >= samples.length) {
      this.onBlock(samples.subarray(0, 0));
      return;
    }
    const part = early > 0 ? samples.slice(early) : samples;
    this.#blocks.push(part);
    this.#length += part.length;
    this.onBlock(part);
  }
}

function microphoneFault(error: unknown): string {
  const name = error instanceof DOMException ? error.name : "";
  const faults: Record<string, string> = {
    NotAllowedError: "This page may not use the microphone. Allow it next to the browser’s address bar, then press Record again.",
    NotFoundError: "No microphone was found. Connect one, or choose a recording below.",
    OverconstrainedError: "That microphone is gone. Choose another.",
    NotReadableError: "Another program is using the microphone. Close it, then press Record again.",
  };
  return faults[name] ?? `The microphone can’t be used: ${reason(error)}`;
}
