// Marking a whole take: it is sent to this machine's own server, and the
// report comes back as a part of the page.
import { say, smoothly } from "./page";
import type { Marked } from "./takeplay";

/** A Finished take is a recording in the page's memory. */
export interface Finished {
  file: ArrayBuffer;
  name: string;
  firstBarS: number | null; // known of what was recorded here
  lostS: number; // of sound that a busy machine lost while recording
  cut: boolean; // the microphone went away while it was recorded
}

const lostWorthSayingS = 0.04;

// remarks are what the page knows of a recording and the server does not.
function remarks(take: Finished): HTMLElement[] {
  const says: string[] = [];
  if (take.cut) says.push("The microphone went away while you played: what was recorded until then is marked.");
  if (take.lostS > lostWorthSayingS) {
    says.push(`About ${Math.round(1000 * take.lostS)} ms of sound were lost while recording, because this machine was busy: what follows the gap may be marked late or wrong.`);
  }
  return says.map((text) => {
    const remark = document.createElement("p");
    remark.className = "fault";
    remark.textContent = text;
    return remark;
  });
}

/** addressOf is where a take is sent to, with what is known of its click. */
export function addressOf(path: string, query: string, take: Finished): string {
  return path + "?" + query + (take.firstBarS === null ? "" : "&first-bar=" + take.firstBarS.toFixed(4));
}

/** markedOf reads where take and line meet; null where no note of the line was
 * heard. */
export function markedOf(report: HTMLElement | null): Marked | null {
  return report?.dataset.offset ? { offsetS: Number(report.dataset.offset), tempo: Number(report.dataset.tempo) } : null;
}

/** mark sends a take and puts its report in place. It returns the report, or
 * null where the take can't be marked. */
export async function mark(take: Finished, query: string, signal: AbortSignal): Promise<HTMLElement | null> {
  const room = document.getElementById("report")?.clientWidth ?? 0;
  const headers = { "Content-Type": "application/octet-stream", "Heddle-Part": "report", "Heddle-Width": `${room} ${room}` };
  const answer = await fetch(addressOf("/take", query, take), { method: "POST", body: take.file, headers, signal });
  const text = await answer.text();
  const report = new DOMParser().parseFromString(text, "text/html").getElementById("report");
  if (!report) throw new Error(text.trim());
  document.getElementById("report")?.replaceWith(document.adoptNode(report));
  report.querySelector("h2")?.after(...remarks(take));
  if (!answer.ok) {
    say("This take can’t be marked. The reason is below.");
    return null;
  }
  const counts = [...report.querySelectorAll("#counts li")].map((item) => (item.textContent ?? "").trim().replace(/\s+/g, " "));
  say("Marked: " + counts.join(", ") + ".");
  return report;
}

/** showReport brings the report into view and gives it the focus. */
export function showReport(): void {
  const report = document.getElementById("report");
  report?.focus({ preventScroll: true });
  document.getElementById("playback")?.scrollIntoView({ block: "start", behavior: smoothly() });
}
