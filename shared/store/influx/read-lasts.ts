/**
 * Brings the known lasts up to what the database has, with as little reading as can be: what spoke lately by one
 * question, what is silent from its note on, everything only where there are no notes.
 */
import type { InfluxClient } from './influx-client.ts';
import type { KnownLast, KnownLasts } from './known-last.ts';
import { firstsQuestion, lastBetweenQuestion, lastsQuestion, lastsSinceQuestion, toEnds } from './questions.ts';
import { noteLagMs, type SeriesNotes } from './series-notes.ts';

/** What is newer than this is found by one question over all series. */
const lateMs = 2 * 86_400_000;

export async function readLasts(client: InfluxClient, notes: SeriesNotes, lasts: KnownLasts): Promise<void> {
  const isFirstLook = !notes.areKnown;
  if (isFirstLook) await notes.read();
  else await notes.readAgain();
  const sinceMs = Math.max(0, Date.now() - lateMs);
  const questions = notes.areKnown ? [lastsSinceQuestion(sinceMs)] : [firstsQuestion, lastsQuestion];
  const ends = (await client.query(questions, client.patience.countMs)).flatMap((answer) => toEnds(answer));
  // Begun by another process: its note knows since when.
  const unknown = ends.filter(({ ref: { site, probe, quantity } }) => !lasts.find(site, probe, quantity));
  if (!isFirstLook) await notes.readOf(unknown.map(({ ref }) => ref));
  for (const { ref, atMs, value } of ends) lasts.findOrAdd(ref.site, ref.probe, ref.quantity).learn(atMs, value);
  if (isFirstLook && notes.areKnown) await askSilent(client, lasts, sinceMs);
}

/** Its newest reading is at most `noteLagMs` ahead of its note. */
async function askSilent(client: InfluxClient, lasts: KnownLasts, sinceMs: number): Promise<void> {
  const silent = lasts.all.filter(
    ({ lastAtMs, notedNewestMs }) => lastAtMs < sinceMs && notedNewestMs > Number.NEGATIVE_INFINITY,
  );
  const questions = silent.map((series) =>
    lastBetweenQuestion(series, series.notedNewestMs, series.notedNewestMs + noteLagMs),
  );
  for (const [index, answer] of (await client.query(questions)).entries()) {
    const series = silent[index] as KnownLast;
    for (const { atMs, value } of toEnds(answer, series)) series.learn(atMs, value);
  }
}
