/**
 * Brings the known lasts up to what the database has, with as little reading as can be: what spoke lately by one
 * question, what is silent from its note on, everything only where there are no notes.
 */
import type { InfluxClient } from './influx-client.ts';
import type { KnownLast, KnownLasts } from './known-last.ts';
import { endsQuestion, lastBetweenQuestion, toEnds } from './questions.ts';
import { noteLagMs, type SeriesNotes } from './series-notes.ts';

/** What is newer than this is found by one question over all series. */
const lateMs = 2 * 86_400_000;

interface Known {
  readonly client: InfluxClient;
  readonly notes: SeriesNotes;
  readonly lasts: KnownLasts;
}

/**
 * The first look at every series, or at every one of these sites; what was known of them before is brought up to date.
 * @returns whether there were notes of any.
 */
export async function openSeries({ client, notes, lasts }: Known, sites?: readonly string[]): Promise<boolean> {
  const noted = await notes.read(sites);
  const sinceMs = Math.max(0, Date.now() - lateMs);
  const ofNotes = sites ? sites.filter((site) => noted.has(site)) : noted.size > 0 ? undefined : [];
  const ofRows = sites ? sites.filter((site) => !noted.has(site)) : noted.size > 0 ? [] : undefined;
  const questions: string[] = [];
  if (ofNotes?.length !== 0) questions.push(endsQuestion('last', sinceMs, ofNotes));
  if (ofRows?.length !== 0) questions.push(endsQuestion('first', 0, ofRows), endsQuestion('last', 0, ofRows));
  learn(lasts, await client.query(questions, client.patience.countMs));
  await askSilent(client, lasts, sinceMs, sites);
  lasts.opened(sites);
  return noted.size > 0;
}

/** What other processes kept of all series since. */
export async function followSeries({ client, notes, lasts }: Known): Promise<void> {
  await notes.readAgain();
  const question = endsQuestion('last', Math.max(0, Date.now() - lateMs));
  const answers = await client.query([question], client.patience.countMs);
  // Begun by another process: its note knows since when.
  const begun = answers
    .flatMap((answer) => toEnds(answer))
    .filter(({ ref: { site, probe, quantity } }) => !lasts.find(site, probe, quantity));
  await notes.readOf(begun.map(({ ref }) => ref));
  learn(lasts, answers);
}

function learn(lasts: KnownLasts, answers: Awaited<ReturnType<InfluxClient['query']>>): void {
  for (const { ref, atMs, value } of answers.flatMap((answer) => toEnds(answer))) {
    lasts.findOrAdd(ref.site, ref.probe, ref.quantity).learn(atMs, value);
  }
}

/** Its newest reading is at most `noteLagMs` ahead of its note. */
async function askSilent(
  client: InfluxClient,
  lasts: KnownLasts,
  sinceMs: number,
  sites: readonly string[] | undefined,
): Promise<void> {
  const asked = sites && new Set(sites);
  const silent = lasts.all.filter(
    ({ site, lastAtMs, notedNewestMs }) =>
      lastAtMs < sinceMs && notedNewestMs > Number.NEGATIVE_INFINITY && (asked?.has(site) ?? true),
  );
  const questions = silent.map((series) =>
    lastBetweenQuestion(series, series.notedNewestMs, series.notedNewestMs + noteLagMs),
  );
  for (const [index, answer] of (await client.query(questions)).entries()) {
    const series = silent[index] as KnownLast;
    for (const { atMs, value } of toEnds(answer, series)) series.learn(atMs, value);
  }
}
