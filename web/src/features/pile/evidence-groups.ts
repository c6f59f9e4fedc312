/** What was looked at, the same rule or the same sight at several places said once. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { Position } from '../../../../shared/names.ts';
import type { Evidence } from '../../../../shared/warning.ts';

type Looked = PileDetail['evidence'][number];

export interface SightLine {
  readonly evidence: Evidence;
  /** Places to name before the sentence; empty where it names its place itself or holds for the whole pile. */
  readonly places: readonly Position[];
  readonly seen: string;
}

const wordsOf = (sentence: string): readonly string[] => sentence.toLowerCase().split(/[^a-z]+/);

/** What was found of one kind, alike places together, in the order given. */
export function sightLines(looked: readonly Looked[]): SightLine[] {
  const lines: { evidence: Evidence; places: Position[]; seen: string }[] = [];
  for (const { position, evidence, seen } of looked) {
    const known = lines.find((line) => line.evidence === evidence && line.seen === seen);
    const places = position === null || wordsOf(seen).includes(position) ? [] : [position];
    if (known) known.places.push(...places);
    else lines.push({ evidence, places, seen });
  }
  return lines;
}
