// What Shelf, Today and Ask do beyond being read.
import { byId } from "./page";

document.documentElement.classList.add("has-scripts");
narrowAsTyped();
countRest();
timeAnswer();

/** narrowAsTyped lists what is found on the shelf while a player types. */
function narrowAsTyped(): void {
  const field = byId("find", HTMLInputElement);
  if (!field) return;
  let latest = 0;
  field.addEventListener("input", () => {
    const mine = ++latest;
    const address = "/shelf?find=" + encodeURIComponent(field.value);
    void fetch(address).then(async (answer) => {
      if (!answer.ok) return;
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      const found = page.getElementById("rows");
      const rows = document.getElementById("rows");
      if (mine !== latest || !found || !rows) return;
      rows.replaceChildren(...found.childNodes);
      history.replaceState(null, "", address);
    });
  });
}

/** countRest counts the minutes of a rest down. */
function countRest(): void {
  const clock = document.querySelector<HTMLElement>(".clock[data-minutes]");
  if (!clock) return;
  const until = performance.now() + Number(clock.dataset.minutes) * 60_000;
  const show = () => {
    const left = Math.max(0, Math.ceil((until - performance.now()) / 1000));
    clock.textContent = `${Math.floor(left / 60)}:${String(left % 60).padStart(2, "0")}`;
    if (left > 0) setTimeout(show, 1000);
  };
  show();
}

/** timeAnswer measures the time from seeing a question to answering it. */
function timeAnswer(): void {
  const took = byId("took", HTMLInputElement);
  const next = byId("next", HTMLAnchorElement);
  next?.focus();
  if (!took || next) return;
  const seen = performance.now();
  took.form?.addEventListener("submit", () => {
    took.value = String(performance.now() - seen);
  });
}
