/** What every detector needs to see, gathered once. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { Position } from '../../shared/names.ts';
import { type PileQuantityKey, pileQuantities, quantityFacts } from '../../shared/quantity.ts';
import type { HandKind, WarningKind } from '../../shared/warning.ts';
import { type HandSign, handSigns } from '../by-hand/hand-signs.ts';
import { maybeOut } from '../estimate/believed.ts';
import type { WaterState } from '../estimate/follow-water.ts';
import { handHoldsMs, speakingHand } from '../estimate/hand-reading.ts';
import { type PastHeat, pastHeat, worstHeat } from '../estimate/heat-memory.ts';
import { riseKPerH } from '../estimate/hours.ts';
import { leadingTrack, type PositionState, servedPosition } from '../estimate/position.ts';
import type { JudgeState } from '../estimate/state.ts';
import { isStuck } from '../estimate/stuck.ts';
import { waterNow } from '../estimate/take-in.ts';
import { isSilent, type Track } from '../estimate/track.ts';
import type { ExpectedBand } from '../expect/band.ts';
import { type PileSetup, pilePositions } from '../profiles/pile-setup.ts';
import { type DoubtedHeat, doubtedHeat } from './doubted-heat.ts';
import type { PositionSight } from './finding.ts';
import { believedMessage } from './value-message.ts';

export interface PileSnapshot {
  readonly state: JudgeState;
  readonly setup: PileSetup;
  readonly band: ExpectedBand | null;
  readonly nowMs: number;
  readonly positions: Readonly<Record<Position, PositionSight | null>>;
  readonly core: PositionSight | null;
  /** Whether the core's temperature is known now. */
  readonly coreKnown: boolean;
  /** The finding that says why it is not; null when it is known or was never measured. */
  readonly coreLost: WarningKind | null;
  /** A reading over the limit that jumped and that nothing will settle soon. */
  readonly doubtedHeat: DoubtedHeat | null;
  /** What each measured position in the pile has been through. */
  readonly heat: readonly PastHeat[];
  readonly worstHeat: PastHeat | null;
  /** Rise over the last three closed hours [K/h]. */
  readonly coreRiseKPerH: number | null;
  /** The water in the bed now, with what hands did and said since the last closed hour. */
  readonly water: WaterState;
  /** The bad signs that people noted, each as it stands now. */
  readonly handSigns: readonly HandSign[];
}

export function snapshotOf(
  state: JudgeState,
  setup: PileSetup,
  band: ExpectedBand | null,
  nowMs: number,
): PileSnapshot {
  const sight = (position: Position) => sightOf(servedPosition(state.positions, setup, position), nowMs);
  const positions = {
    core: sight('core'),
    top: sight('top'),
    base: sight('base'),
    edge: sight('edge'),
    air: sight('air'),
  };
  const { core } = positions;
  const coreLost = lostBy(state.positions, core);
  const coreKnown =
    core !== null && core.temperatureC !== null && coreLost === null && !(core.byHand === true && core.silent);
  const heat = heatOf(state.positions, setup, nowMs);
  return {
    state,
    setup,
    band,
    nowMs,
    positions,
    core,
    coreKnown,
    coreLost,
    doubtedHeat: doubtedHeat(positions, setup.limits.actC, nowMs),
    heat,
    worstHeat: worstHeat(heat),
    coreRiseKPerH: riseKPerH(state.hours),
    water: waterNow(state.water, state.hours.done, setup, nowMs),
    handSigns: handSigns(setup, nowMs),
  };
}

/** A failing probe is still believed between its spikes: those are thrown out. */
function lostBy(positions: JudgeState['positions'], core: PositionSight | null): WarningKind | null {
  const track = positions.core?.temperature;
  if (core === null || track == null) return null;
  if (core.byHand === true && (!core.silent || positions.core?.hand?.standsIn !== true)) return null;
  if (core.silent) return 'probe-silent';
  if (isStuck(track, 'core')) return 'probe-stuck';
  return positions.core?.out.sinceMs != null || maybeOut(positions) ? 'probe-out' : null;
}

/** Where a hand has said the same, it speaks for the estimate. */
export function saidByHand({ handSigns }: PileSnapshot, kind: HandKind): HandKind | null {
  return handSigns.some((sign) => sign.kind === kind && sign.state === 'bad') ? kind : null;
}

/** Why nothing can be said of the core. */
export type CoreUnknown = 'not-measured' | 'not-believed';

export function coreUnknown({ coreLost }: PileSnapshot): CoreUnknown {
  return coreLost === 'probe-out' || coreLost === 'probe-stuck' ? 'not-believed' : 'not-measured';
}

const unknownSays: Record<CoreUnknown, Message> = {
  'not-measured': message('warnings.core.not-measured'),
  'not-believed': message('warnings.core.not-believed'),
};

export function coreUnknownSays(pile: PileSnapshot): Message {
  return unknownSays[coreUnknown(pile)];
}

export const measureCore = message('warnings.core.by-hand');

/** A clause. @example coreNow(pile) // => "the core is at 46.3 °C" */
export function coreNow(pile: PileSnapshot): Message {
  return coreSays(pile, false);
}

/** The same at the beginning of a sentence. */
export function coreNowFirst(pile: PileSnapshot): Message {
  return coreSays(pile, true);
}

function coreSays({ core, nowMs }: PileSnapshot, isFirst: boolean): Message {
  return core === null
    ? message('warnings.value.none', { isFirst, position: 'core' })
    : believedMessage('core', core, nowMs, { isFirst });
}

const besideTemperature = pileQuantities
  .filter((quantity) => quantity !== 'temperature')
  .map((quantity) => ({ quantity, key: quantityFacts[quantity].key }));

/** In one shape, its temperature first, and copied whole: this is made of every position at every look (`bench replay`). */
const unseen: Sight = {
  temperatureC: null,
  temperatureAtMs: null,
  everyMs: 0,
  doubted: null,
  atMs: 0,
  silent: false,
  ...noneBeside(),
};
type Sight = { -readonly [Field in keyof PositionSight]: PositionSight[Field] };

function noneBeside(): Record<Exclude<PileQuantityKey, 'temperatureC'>, null> {
  return Object.fromEntries(besideTemperature.map(({ key }) => [key, null])) as ReturnType<typeof noneBeside>;
}

function sightOf(followed: PositionState | null, nowMs: number): PositionSight | null {
  if (followed === null) return null;
  const lead = leadingTrack(followed);
  if (lead === null) return null;
  const { temperature } = followed;
  const sight: Sight = { ...unseen };
  let heardAtMs = 0;
  if (temperature !== null) {
    sight.temperatureC = temperature.value;
    heardAtMs = temperature.heardAtMs;
  }
  for (const { quantity, key } of besideTemperature) {
    const track = followed[quantity];
    if (track === null) continue;
    sight[key] = track.value;
    if (track.heardAtMs > heardAtMs) heardAtMs = track.heardAtMs;
  }
  const hand = speakingHand(followed);
  if (hand !== null) {
    sight.temperatureC = hand.tempC;
    sight.temperatureAtMs = hand.atMs;
    sight.atMs = hand.atMs;
    sight.silent = nowMs - hand.atMs > handHoldsMs;
    sight.byHand = true;
    return sight;
  }
  sight.atMs = heardAtMs;
  sight.temperatureAtMs = temperature?.atMs ?? null;
  sight.everyMs = temperature?.intervalMs ?? 0;
  sight.doubted = doubtedOf(temperature);
  sight.silent = isSilent(lead, nowMs);
  return sight;
}

/** While one is doubted it was the last that was heard. */
function doubtedOf(track: Track | null): PositionSight['doubted'] {
  return track?.doubted == null ? null : { temperatureC: track.doubted, atMs: track.heardAtMs };
}

function heatOf(positions: JudgeState['positions'], setup: PileSetup, nowMs: number): PastHeat[] {
  const heats: PastHeat[] = [];
  for (const position of pilePositions) {
    const heat = positions[position]?.heat;
    if (heat != null) heats.push(pastHeat(position, heat, nowMs, setup.noted));
  }
  return heats;
}
