import { wholeRange } from '../readings/whole-range.ts';
import type { SeriesPart } from '../readings-store.ts';
import { latestInfluxMs } from './line-protocol.ts';
import { bucketsQuestion, standInBucketsQuestion } from './questions.ts';

/** Of what was downsampled and of what was not; none for an empty range. */
export function bucketQuestions(
  part: SeriesPart,
  watermarkMs: number,
  [fromMs, toMs]: readonly [fromMs: number, toMs: number],
  bucketMs: number,
): string[] {
  const [partFromMs, partToMs] = wholeRange(part.fromMs ?? 0, part.toMs ?? Number.POSITIVE_INFINITY);
  const startMs = Math.max(fromMs, partFromMs);
  const throughMs = Math.min(toMs, partToMs, latestInfluxMs + 1) - 1;
  const questions: string[] = [];
  const downsampledMs = Math.min(throughMs, watermarkMs - 1);
  if (startMs <= downsampledMs) questions.push(standInBucketsQuestion(part, startMs, downsampledMs, bucketMs));
  const rawMs = Math.max(startMs, watermarkMs);
  if (rawMs <= throughMs) questions.push(bucketsQuestion(part, rawMs, throughMs, bucketMs));
  return questions;
}
