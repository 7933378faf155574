// A recording from the disk: chosen or dropped.
import { byId, say } from "./page";
import { writeWAV } from "./wavefile";

const mostBytes = 930e6; // as much as the server reads

const decodedHz = 48000;

/** readTake reads a file as the server takes it. What phones and browsers record
 * (M4A, Ogg, Opus, WebM) is decoded here, so that nothing need be installed; what
 * the browser can't decode goes to the server as it is, which says what it is. */
export async function readTake(file: File): Promise<ArrayBuffer> {
  const bytes = await file.arrayBuffer();
  if (serverReads(new Uint8Array(bytes, 0, Math.min(3, bytes.byteLength)))) return bytes;
  try {
    const sound = await new OfflineAudioContext(1, 1, decodedHz).decodeAudioData(bytes.slice(0));
    const channels = Array.from({ length: sound.numberOfChannels }, (_, c) => sound.getChannelData(c));
    return writeWAV(Float32Array.from({ length: sound.length }, (_, i) => channels.reduce((sum, channel) => sum + (channel[i] ?? 0), 0) / channels.length), sound.sampleRate);
  } catch {
    return bytes;
  }
}

// serverReads recognises WAV, FLAC and MP3 by their first bytes.
function serverReads([a = 0, b = 0, c = 0]: Uint8Array): boolean {
  const word = String.fromCharCode(a, b, c);
  return ["RIF", "RF6", "fLa", "ID3"].includes(word) || (a === 0xff && (b & 0xe6) === 0xe2);
}

/** takeFiles calls back with each file that is chosen or dropped. */
export function takeFiles(chosen: (file: File) => void): void {
  const form = byId("take-file", HTMLFormElement);
  const input = byId("recording", HTMLInputElement);
  const give = (file: File | null | undefined) => {
    if (!file) return;
    if (file.size > mostBytes) say(`${file.name} is too large: a take is at most ten minutes long.`);
    else chosen(file);
  };
  form?.addEventListener("submit", (event) => {
    event.preventDefault();
    give(input?.files?.[0]);
  });
  input?.addEventListener("change", () => give(input.files?.[0]));

  const carriesFile = (event: DragEvent) => event.dataTransfer?.types.includes("Files") ?? false;
  document.addEventListener("dragover", (event) => {
    if (!carriesFile(event)) return;
    event.preventDefault();
    document.body.classList.add("dropping");
  });
  document.addEventListener("dragleave", (event) => {
    if (event.relatedTarget === null) document.body.classList.remove("dropping");
  });
  document.addEventListener("drop", (event) => {
    document.body.classList.remove("dropping");
    if (!carriesFile(event)) return;
    event.preventDefault();
    give(event.dataTransfer?.files[0]);
  });
}
