// Marking a whole take: it is sent to this machine's own server, and the
// report comes back as a part of the page.
import { say } from "./page";
import type { Marked } from "./takeplay";

/** A Finished take is a recording that lies in the page's memory. */
export interface Finished {
  file: ArrayBuffer;
  name: string;
  firstBarS: number | null; // known of what was recorded here
  lostS: number; // of sound that a busy machine lost while recording
}

const lostWorthSayingS = 0.04;

function lostRemark(seconds: number): HTMLElement {
  const remark = document.createElement("p");
  remark.className = "fault";
  remark.textContent = `About ${Math.round(1000 * seconds)} ms of sound were lost while recording, because this machine was busy: what follows the gap may be marked late or wrong.`;
  return remark;
}

/** mark sends a take and puts its report in place. It returns where take and
 * line meet, or null where the take can't be marked. */
export async function mark(take: Finished, query: string, signal: AbortSignal): Promise<Marked | null> {
  const clicked = take.firstBarS === null ? "" : "&first-bar=" + take.firstBarS.toFixed(4);
  const room = document.getElementById("report")?.clientWidth ?? 0;
  const answer = await fetch("/take?" + query + clicked, {
    method: "POST",
    body: take.file,
    headers: { "Content-Type": "application/octet-stream", "Heddle-Part": "report", "Heddle-Width": `${room} ${room}` },
    signal,
  });
  const text = await answer.text();
  const page = new DOMParser().parseFromString(text, "text/html");
  const report = page.getElementById("report");
  if (!report) throw new Error(text.trim());
  document.getElementById("report")?.replaceWith(document.adoptNode(report));
  if (!answer.ok || !report.dataset.offset) {
    say("This take can’t be marked; the reason stands below.");
    return null;
  }
  if (take.lostS > lostWorthSayingS) report.querySelector("h2")?.after(lostRemark(take.lostS));
  const counts = [...report.querySelectorAll("#counts li")].map((item) => (item.textContent ?? "").trim().replace(/\s+/g, " "));
  say("Marked: " + counts.join(", ") + ".");
  return { offsetS: Number(report.dataset.offset), tempo: Number(report.dataset.tempo) };
}

/** showReport brings the report into view and gives it the focus. */
export function showReport(): void {
  const report = document.getElementById("report");
  const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
  report?.focus({ preventScroll: true });
  document.getElementById("playback")?.scrollIntoView({ block: "start", behavior: calm ? "auto" : "smooth" });
}
