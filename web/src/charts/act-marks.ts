/** Acts as marks on a chart, those close together said at one mark. */
export interface Mark {
  readonly atMs: number;
  readonly words: string;
}

/** Marks nearer than this part of the span would write over each other. */
const closePart = 0.06;

export function gatherMarks(acts: readonly Mark[], fromMs: number, toMs: number): Mark[] {
  const marks: { atMs: number; words: string[] }[] = [];
  const inside = acts.filter(({ atMs }) => atMs >= fromMs && atMs <= toMs).sort((one, other) => one.atMs - other.atMs);
  for (const { atMs, words } of inside) {
    const last = marks.at(-1);
    if (last && atMs - last.atMs < closePart * (toMs - fromMs)) {
      if (!last.words.includes(words)) last.words.push(words);
    } else {
      marks.push({ atMs, words: [words] });
    }
  }
  return marks.map(({ atMs, words }) => ({ atMs, words: words.join(', ') }));
}
