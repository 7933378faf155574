// The take page: recording, files, the report, and hearing the take again.
import { byId, hide, reason, say } from "./page";
import { offerInputs } from "./takeinputs";
import { Keeper } from "./takekeep";
import { openKept } from "./takekept";
import { wanted } from "./keys";
import { keepDelay, setFurther, furtherS } from "./takedelay";
import { readTake, takeFiles } from "./takefile";
import { LiveMarks } from "./takemarks";
import { Playback } from "./takeplay";
import { mark, markedOf, showReport, type Finished } from "./takereport";
import { Session, type Line } from "./takesession";
import { fit, sheetOf } from "./takesheet";

type State = "idle" | "preparing" | "recording" | "marking";

const adoptMS = 20; // less is a player's, not a device's

document.documentElement.classList.add("has-scripts");
let context: AudioContext | null = null;
const audio = () => (context ??= new AudioContext({ latencyHint: "interactive" }));
const page = byId("take", HTMLElement);
if (page?.dataset.recording) openKept(page, page.dataset.recording, audio);
else if (page) run(page);

function run(page: HTMLElement): void {
  const line: Line = {
    query: page.dataset.query ?? "",
    capture: page.dataset.capture ?? "",
    lineS: Number(page.dataset.line),
    barS: Number(page.dataset.bar),
    beats: Number(page.dataset.beats),
    pickupS: Number(page.dataset.pickup),
  };
  const marks = new LiveMarks();
  const playback = new Playback(audio, () => line.query);
  const keeper = new Keeper(line.query);
  let state: State = "idle";
  let session: Session | null = null;
  let last: Finished | null = null;
  let sending: AbortController | null = null;
  let saved = ""; // address of the take in memory

  const go = (next: State) => {
    state = next;
    const record = byId("take-record", HTMLButtonElement);
    const cancel = byId("take-cancel", HTMLButtonElement);
    if (record) {
      record.textContent = state === "recording" || state === "preparing" ? "Stop" : "Record";
      record.disabled = state === "marking";
      record.classList.toggle("running", state === "recording");
    }
    if (cancel) {
      cancel.hidden = state === "idle";
      cancel.textContent = state === "marking" ? "Stop marking" : "Throw away";
    }
    const file = byId("take-file", HTMLFormElement)?.querySelector("button");
    if (file) file.disabled = state !== "idle";
  };

  const record = async () => {
    playback.stop();
    marks.clear();
    marks.redraw();
    go("preparing");
    say("Preparing: allow the microphone if the browser asks.");
    const mine = (session = new Session(audio(), line, marks, () => void stop()));
    try {
      await mine.begin();
      if (session === mine) go("recording");
    } catch (error) {
      if (session !== mine) return;
      cancel();
      say(reason(error));
    }
  };

  const stop = async () => {
    if (!session) return;
    if (state === "preparing") {
      cancel();
      return;
    }
    const mine = session;
    session = null;
    go("marking");
    say("Marking the take…");
    const take = await mine.finish();
    if (take) await markTake(take);
    else {
      go("idle");
      say(mine.cut ? "The microphone went away before the line began. Connect it, then press Record again." : "Stopped before the line began.");
    }
  };

  const cancel = () => {
    sending?.abort();
    session?.drop();
    session = null;
    go("idle");
    say(last ? "Stopped. The last take is still here." : "Press Record, or R, when you are ready.");
  };

  // markTake marks a take that is in memory and makes it ready to be heard.
  const markTake = async (take: Finished) => {
    last = take;
    save(take);
    keeper.offer(null);
    go("marking");
    sending = new AbortController();
    try {
      const marked = await mark(take, line.query, sending.signal);
      await playback.load(take.file, markedOf(marked)).catch(() => undefined); // what can't be decoded can't be heard
      offerDelay(take);
      if (marked) keeper.offer(take);
      showReport();
    } catch (error) {
      const stopped = error instanceof DOMException && error.name === "AbortError";
      if (!stopped) say(`The take is still here, but was not marked: ${reason(error)}`);
      await playback.load(take.file, null).catch(() => undefined);
    } finally {
      sending = null;
      hide("playback", !playback.ready);
      go("idle");
    }
  };

  const save = (take: Finished) => {
    const link = byId("take-save", HTMLAnchorElement);
    if (!link) return;
    URL.revokeObjectURL(saved);
    saved = URL.createObjectURL(new Blob([take.file], { type: "audio/wav" }));
    link.href = saved;
    link.download = take.name;
    link.hidden = take.firstBarS === null; // a file from the disk is there already
  };

  // A steady delay against the click is more often the device's than the
  // player's. A player who knows can have it taken off.
  const offerDelay = (take: Finished) => {
    const button = byId("take-adopt", HTMLButtonElement);
    const behind = Number(document.getElementById("report")?.dataset.behind ?? 0);
    if (!button) return;
    button.hidden = take.firstBarS === null || Math.abs(behind) < adoptMS;
    button.textContent = `Count ${Math.abs(behind)} ms ${behind > 0 ? "late" : "early"} as this device’s delay`;
    button.onclick = () => {
      const before = furtherS();
      setFurther(1000 * before + behind);
      void markTake({ ...take, firstBarS: (take.firstBarS ?? 0) + furtherS() - before });
    };
  };

  byId("take-record", HTMLButtonElement)?.addEventListener("click", () => void (state === "idle" ? record() : stop()));
  byId("take-cancel", HTMLButtonElement)?.addEventListener("click", cancel);
  takeFiles((file) => {
    if (state !== "idle") {
      say(`${file.name} has to wait until this take is ${state === "marking" ? "marked" : "stopped"}.`);
      return;
    }
    marks.clear();
    say(`Listening to ${file.name}…`);
    go("marking");
    void readTake(file).then((bytes) => markTake({ file: bytes, name: file.name, firstBarS: null, lostS: 0, cut: false }));
  });
  document.addEventListener("keydown", (event) => {
    if (event.defaultPrevented || wanted(event)) return;
    if (event.key === "r" && state !== "marking") {
      event.preventDefault();
      void (state === "idle" ? record() : stop());
    } else if (event.key === " " && playback.ready && state === "idle") {
      event.preventDefault();
      void playback.toggle();
    }
  });
  window.addEventListener("beforeunload", (event) => {
    if (state === "recording" || keeper.busy) event.preventDefault();
  });
  keepDelay();
  offerInputs();
  fit(sheetOf(line.query), () => marks.redraw());
  go("idle");
}
