// Writing a take as a WAV file.

const headBytes = 44;

/** writeWAV writes one channel as 16-bit PCM. */
export function writeWAV(samples: Float32Array, rate: number): ArrayBuffer {
  const file = new ArrayBuffer(headBytes + 2 * samples.length);
  const view = new DataView(file);
  const word = (at: number, text: string) => {
    for (let i = 0; i < text.length; i++) view.setUint8(at + i, text.charCodeAt(i));
  };
  word(0, "RIFF");
  view.setUint32(4, file.byteLength - 8, true);
  word(8, "WAVEfmt ");
  view.setUint32(16, 16, true); // bytes of the format that follows
  view.setUint16(20, 1, true); // PCM
  view.setUint16(22, 1, true); // channels
  view.setUint32(24, rate, true);
  view.setUint32(28, 2 * rate, true); // bytes a second
  view.setUint16(32, 2, true); // bytes a frame
  view.setUint16(34, 16, true); // bits
  word(36, "data");
  view.setUint32(40, 2 * samples.length, true);
  for (let i = 0; i < samples.length; i++) {
    const x = Math.max(-1, Math.min(1, samples[i] ?? 0));
    view.setInt16(headBytes + 2 * i, Math.round(x * 32767), true);
  }
  return file;
}
