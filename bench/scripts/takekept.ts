// A kept take: its recording is fetched when the player wants to hear it.
import { hide } from "./page";
import { wanted } from "./keys";
import { Playback } from "./takeplay";
import { markedOf } from "./takereport";
import { fit, sheetOf } from "./takesheet";

/** openKept makes a kept take's page play. */
export function openKept(page: HTMLElement, recording: string, audio: () => AudioContext): void {
  const query = page.dataset.query ?? "";
  const playback = new Playback(audio, () => query);
  const fetchTake = async () => {
    const answer = await fetch(recording);
    if (!answer.ok) throw new Error("The recording is gone.");
    return answer.arrayBuffer();
  };
  playback.offer(fetchTake, markedOf(document.getElementById("report")));
  hide("playback", false);
  document.addEventListener("keydown", (event) => {
    if (event.key !== " " || event.defaultPrevented || wanted(event)) return;
    event.preventDefault();
    void playback.toggle();
  });
  fit(sheetOf(query), () => {});
  fit({ id: "over", holder: "report", address: location.pathname, part: "report" }, () => {});
}
