// Keeping a take: it is sent to this machine's own server, which writes it to
// the data folder; the list that it then heads comes back.
import { byId, say } from "./page";
import { addressOf, postTake, type Finished } from "./takereport";

/** A Keeper offers to keep the take that was marked last. */
export class Keeper {
  private take: Finished | null = null;
  private keeping = 0;

  constructor(private query: string) {
    byId("take-keep", HTMLButtonElement)?.addEventListener("click", () => void this.keep());
  }

  /** busy tells whether a take is still on its way to the disk. */
  get busy(): boolean {
    return this.keeping > 0;
  }

  /** offer offers a marked take; null takes the offer back. */
  offer(take: Finished | null): void {
    this.take = take;
    this.show(take ? "Keep this take" : "");
  }

  private async keep(): Promise<void> {
    const take = this.take;
    if (!take) return;
    this.show("Keeping…");
    this.keeping++;
    try {
      const answer = await postTake(addressOf("/takes", this.query, take), take, "kept");
      const text = await answer.text();
      if (!answer.ok) throw new Error(text.trim());
      const list = new DOMParser().parseFromString(text, "text/html").getElementById("kept");
      if (list) document.getElementById("kept")?.replaceWith(document.adoptNode(list));
      if (this.take === take) this.show("Kept");
      say("Kept: it stands first under Kept takes.");
    } catch (error) {
      if (this.take === take) this.show("Keep this take");
      say(error instanceof TypeError ? "Not kept: heddle does not answer. The take is still here." : `${error instanceof Error ? error.message : String(error)} The take is still here.`);
    } finally {
      this.keeping--;
    }
  }

  private show(text: string): void {
    const button = byId("take-keep", HTMLButtonElement);
    if (!button) return;
    button.hidden = text === "";
    button.textContent = text;
    button.disabled = text !== "Keep this take";
    const warning = byId("take-unkept", HTMLElement);
    if (warning) warning.hidden = button.hidden || text === "Kept";
  }
}
