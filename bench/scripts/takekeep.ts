// Keeping a take: this machine's own server writes it to the data folder and
// answers with the new list of takes.
import { byId, hide, reason, say } from "./page";
import { addressOf, type Finished } from "./takereport";

/** A Keeper offers to keep the take that was marked last. */
export class Keeper {
  #take: Finished | null = null;
  #keeping = 0;

  constructor(private query: string) {
    byId("take-keep", HTMLButtonElement)?.addEventListener("click", () => void this.#keep());
    byId("take-label", HTMLInputElement)?.addEventListener("keydown", (event) => {
      if (event.key === "Enter" && !event.isComposing) void this.#keep();
    });
  }

  /** busy tells whether a take is still on its way to the disk. */
  get busy(): boolean {
    return this.#keeping > 0;
  }

  /** offer offers a marked take; null takes the offer back. */
  offer(take: Finished | null): void {
    this.#take = take;
    this.#show(take ? "Keep this take" : "");
  }

  async #keep(): Promise<void> {
    const take = this.#take;
    if (!take || byId("take-keep", HTMLButtonElement)?.disabled) return;
    this.#show("Keeping…");
    this.#keeping++;
    try {
      const answer = await fetch(addressOf("/takes", this.query, take), { method: "POST", body: this.#form(take), headers: { "Heddle-Part": "kept" } });
      const text = await answer.text();
      if (!answer.ok) throw new Error(text.trim());
      const list = new DOMParser().parseFromString(text, "text/html").getElementById("kept");
      if (list) document.getElementById("kept")?.replaceWith(document.adoptNode(list));
      const label = byId("take-label", HTMLInputElement);
      if (label) label.value = ""; // it was this take's
      if (this.#take === take) this.#show("Kept");
      say("Kept. It is the first under Kept takes.");
    } catch (error) {
      if (this.#take === take) this.#show("Keep this take");
      say(error instanceof TypeError ? "Not kept: heddle does not answer. The take is still here." : `${reason(error)} The take is still here.`);
    } finally {
      this.#keeping--;
    }
  }

  // form is what the page's form would send: the label comes first.
  #form(take: Finished): FormData {
    const form = new FormData();
    form.append("label", byId("take-label", HTMLInputElement)?.value ?? "");
    form.append("recording", new Blob([take.file]), take.name);
    return form;
  }

  #show(text: string): void {
    const button = byId("take-keep", HTMLButtonElement);
    if (!button) return;
    for (const part of button.parentElement?.children ?? []) part.toggleAttribute("hidden", text === "");
    button.textContent = text;
    button.disabled = text !== "Keep this take";
    hide("take-unkept", button.hidden || text === "Kept");
  }
}
