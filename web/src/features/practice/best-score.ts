/** The best score of each practice pile, remembered in this browser. */
import { z } from 'zod';

const key = 'branhearth.practice';
const scoresSchema = z.record(z.string(), z.number().min(0).max(100));
export type BestScores = z.infer<typeof scoresSchema>;

/** Anything may have written there: what cannot be read is nothing. */
export function readScores(text: string | null): BestScores {
  try {
    return scoresSchema.parse(JSON.parse(text ?? '{}'));
  } catch {
    return {};
  }
}

export function bestScores(): BestScores {
  try {
    return readScores(localStorage.getItem(key));
  } catch {
    return {};
  }
}

export function rememberScore(scenarioId: string, points: number): void {
  const scores = bestScores();
  if ((scores[scenarioId] ?? -1) >= points) return;
  try {
    localStorage.setItem(key, JSON.stringify({ ...scores, [scenarioId]: points }));
  } catch {
    // Storage is forbidden here: the score is forgotten at the next load.
  }
}
