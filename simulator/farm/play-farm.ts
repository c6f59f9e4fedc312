/**
 * Plays a farm and tells what its probes would send. It never waits or sends: pace and way are chosen by the taker (see
 * publish/).
 */
import { actOn, type PileAct } from '../model/acts.ts';
import { seedOf } from '../model/random.ts';
import { airAtPile } from '../model/shelter.ts';
import { longestStepS, stepPile } from '../model/step-pile.ts';
import { faultAt, lossChance } from '../probes/fault.ts';
import { measure, type Probe, type Values } from '../probes/probe.ts';
import { mixed, type Truth, truthAt } from '../probes/truth.ts';
import { type Farm, type PlayedPile, playedPile } from './farm.ts';

export interface FarmReading {
  readonly kind: 'reading';
  readonly site: string;
  readonly probe: string;
  /** As the probe stamped it [epoch ms]. */
  readonly atMs: number;
  /** When it goes out [epoch ms]. */
  readonly sendAtMs: number;
  readonly values: Values;
}

/** A probe loses power or comes back. */
interface FarmStatus {
  readonly kind: 'status';
  readonly site: string;
  readonly probe: string;
  readonly sendAtMs: number;
  readonly online: boolean;
}

export type FarmMessage = FarmReading | FarmStatus;

export interface PlayOptions {
  readonly untilMs: number;
  readonly stepS?: number | undefined;
  /** Called after each step of each pile, with the truth. */
  readonly onStep?: ((played: PlayedPile) => void) | undefined;
  /** Called when hands were at a pile. */
  readonly onAct?: ((played: PlayedPile, act: PileAct, atMs: number) => void) | undefined;
}

interface Voice {
  readonly played: PlayedPile;
  readonly probe: Probe;
  nextAtMs: number;
  powered: boolean;
  /** Whether its last reading never arrived. */
  lost: boolean;
}

export function* playFarm(farm: Farm, options: PlayOptions): Generator<FarmMessage, void, undefined> {
  const stepMs = Math.min(options.stepS ?? longestStepS, longestStepS) * 1000;
  const piles = farm.piles.map((setup) => playedPile(farm, setup));
  const voices = new Map(piles.map((played) => [played, played.probes.map((probe) => voiceOf(played, probe))]));
  const pending: FarmMessage[] = [];
  let nowMs = Math.min(farm.startMs, ...piles.map(({ setup }) => setup.laidAtMs));

  while (nowMs < options.untilMs) {
    const endMs = Math.min(nowMs + stepMs, options.untilMs);
    for (const played of piles) {
      if (played.pile.atMs >= endMs) continue;
      const stepS = (endMs - played.pile.atMs) / 1000;
      doActs(played, endMs, options);
      const due = (voices.get(played) ?? []).filter(({ nextAtMs }) => nextAtMs <= endMs);
      const before = due.map(({ probe }) => truthNow(played, probe));
      stepPile(played.pile, played.weather, stepS);
      options.onStep?.(played);
      due.forEach((voice, i) => {
        speak(voice, before[i] ?? truthNow(played, voice.probe), endMs, stepS, pending);
      });
    }
    nowMs = endMs;
    pending.sort((a, b) => a.sendAtMs - b.sendAtMs);
    let ready = 0;
    while ((pending[ready]?.sendAtMs ?? Number.POSITIVE_INFINITY) <= nowMs) ready += 1;
    yield* pending.splice(0, ready);
  }
  // What an outage still holds back at the end stays unsent.
}

function voiceOf(played: PlayedPile, probe: Probe): Voice {
  const { laidAtMs, site } = played.setup;
  const everyMs = probe.setup.everyS * 1000;
  // Probes are switched on one after another, so they do not all speak at once.
  const phaseMs = seedOf(`${site}/${probe.setup.name}`) % everyMs;
  return {
    played,
    probe,
    nextAtMs: laidAtMs + phaseMs,
    powered: true,
    lost: false,
  };
}

function doActs(played: PlayedPile, endMs: number, options: PlayOptions): void {
  const { pile, setup, toDo, weather } = played;
  for (let next = toDo[0]; next !== undefined && setup.laidAtMs + next.afterH * 3_600_000 < endMs; next = toDo[0]) {
    toDo.shift();
    actOn(pile, next.act, airAtPile(pile, weather(pile.atMs), 1));
    options.onAct?.(played, next.act, pile.atMs);
  }
}

/** Everything one probe measures within the step that has just been taken. */
function speak(voice: Voice, before: Truth, endMs: number, stepS: number, pending: FarmMessage[]): void {
  const { played, probe } = voice;
  const { site, laidAtMs } = played.setup;
  const { name, everyS, faults } = probe.setup;
  const after = truthNow(played, probe);
  const aside = asideNow(played);
  const startMs = endMs - stepS * 1000;
  while (voice.nextAtMs <= endMs) {
    const atMs = voice.nextAtMs;
    voice.nextAtMs += everyS * 1000;
    const afterH = (atMs - laidAtMs) / 3_600_000;
    const truth = mixed(before, after, (atMs - startMs) / (stepS * 1000));
    const values = measure(probe, truth, aside, atMs, afterH);
    const powered = values !== undefined;
    if (powered !== voice.powered) {
      voice.powered = powered;
      pending.push({ kind: 'status', site, probe: name, sendAtMs: atMs, online: powered });
    }
    if (values === undefined) continue;
    const dropped = faultAt(faults, 'dropped', afterH);
    voice.lost = dropped !== undefined && probe.random.next() < lossChance(dropped, voice.lost);
    if (voice.lost) continue;
    const late = faultAt(faults, 'late', afterH);
    const clock = faultAt(faults, 'wrong-clock', afterH);
    const reading: FarmReading = {
      kind: 'reading',
      site,
      probe: name,
      atMs: Math.round(atMs + (clock?.byS ?? 0) * 1000),
      sendAtMs: late === undefined ? atMs : laidAtMs + (late.toH ?? Number.POSITIVE_INFINITY) * 3_600_000,
      values,
    };
    pending.push(reading);
    const twice = faultAt(faults, 'duplicated', afterH);
    if (twice !== undefined && probe.random.next() < twice.share) pending.push(reading);
  }
}

function truthNow({ pile, weather }: PlayedPile, probe: Probe): Truth {
  const outdoors = weather(pile.atMs);
  return truthAt(
    pile,
    { ...outdoors, tempC: pile.shed === 'closed' ? pile.shedAirC : outdoors.tempC },
    probe.setup.position,
    probe.setup.depthM,
  );
}

function asideNow({ pile, weather }: PlayedPile): Truth {
  const outdoors = weather(pile.atMs);
  return truthAt(pile, { ...outdoors, tempC: pile.shed === 'closed' ? pile.shedAirC : outdoors.tempC }, 'air');
}
