// A recording from the disk: chosen or dropped.
import { byId, say } from "./page";

const mostBytes = 930e6; // as much as the server reads

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
