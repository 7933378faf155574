// The part of idiomorph that the pages use.
export interface MorphConfig {
  morphStyle?: "outerHTML" | "innerHTML";
  ignoreActiveValue?: boolean;
  callbacks?: { beforeAttributeUpdated?: (name: string, element: Element, update: "update" | "remove") => boolean };
}
export const Idiomorph: { morph(from: Element, to: Element | string | Node[], config?: MorphConfig): Node[] };
