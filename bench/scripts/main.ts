// What the bench's page does beyond being read. Each module has one job.
import { offerSteps } from "./address";
import { openChoosers } from "./chooser";
import { carryChoices } from "./downloads";
import { hearSpots } from "./hearing";
import { keepLighting } from "./lighting";
import { mixParts } from "./mixer";
import { printAsHandout } from "./paper";
import { markRanges } from "./ranges";
import { followSentence } from "./sentence";
import { readKeys } from "./shortcuts";
import { foldSpare } from "./spare";
import { setTempo } from "./tempo";
import { Transport } from "./transport";

document.documentElement.classList.add("has-scripts");
const transport = new Transport();
const ranges = markRanges(transport);
const tempo = setTempo();
mixParts(transport);
const findNotes = keepLighting(transport, tempo.hear);
readKeys(transport, tempo, ranges);
foldSpare();
printAsHandout();
carryChoices();
openChoosers(transport);
offerSteps(transport);
hearSpots(transport);
followSentence({
  shown: () => {
    transport.exerciseChanged();
    tempo.redraw();
    ranges.redraw();
  },
  refused: tempo.refused,
  replaced: () => {
    findNotes();
    ranges.redraw();
  },
});
