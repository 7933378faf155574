// Where the bar has little room, a button shows and hides its less important
// part. The style sheet says which part and where.
import { byId } from "./page";

export function foldSpare(): void {
  const button = byId("spare", HTMLButtonElement);
  const bar = document.getElementById("transport");
  button?.addEventListener("click", () => {
    const whole = bar?.classList.toggle("whole") ?? false;
    button.setAttribute("aria-expanded", String(whole));
  });
}
