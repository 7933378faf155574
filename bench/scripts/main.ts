// What the bench's page does beyond standing there. Each module has one job.
import { keepLighting } from "./lighting";
import { printAsHandout } from "./paper";
import { onPictures } from "./pictures";
import { markRanges } from "./ranges";
import { followSentence } from "./sentence";
import { readKeys } from "./shortcuts";
import { foldSpare } from "./spare";
import { setTempo } from "./tempo";
import { Transport } from "./transport";
import { mixParts } from "./mixer";

document.documentElement.classList.add("has-scripts");
const transport = new Transport();
const ranges = markRanges(transport);
const tempo = setTempo();
mixParts(transport);
keepLighting(transport, tempo.hear);
readKeys(transport, tempo, ranges);
foldSpare();
printAsHandout();
onPictures(() => ranges.redraw());
followSentence(() => {
  transport.exerciseChanged();
  tempo.redraw();
  ranges.redraw();
});
