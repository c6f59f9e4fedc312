/** What every detector needs to see, gathered once. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { Position } from '../../shared/names.ts';
import { type PileQuantity, type PileQuantityKey, pileQuantities, quantityFacts } from '../../shared/quantity.ts';
import type { HandKind, WarningKind } from '../../shared/warning.ts';
import { type HandSign, handSigns } from '../by-hand/hand-signs.ts';
import type { DryWater } from '../estimate/follow-water.ts';
import { type PastHeat, pastHeat, worstHeat } from '../estimate/heat-memory.ts';
import { coreAtHour, type JudgeState, type PositionState } from '../estimate/state.ts';
import { waterNow } from '../estimate/take-in.ts';
import { isSilent, type Track } from '../estimate/track.ts';
import type { ExpectedBand } from '../expect/band.ts';
import { type PileSetup, pilePositions } from '../profiles/pile-setup.ts';
import { type DoubtedHeat, doubtedHeat } from './doubted-heat.ts';
import type { PositionSight } from './finding.ts';
import { fellToAir } from './out-sight.ts';
import { isStuck } from './stuck.ts';
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
  /** What each measured place in the pile has been through. */
  readonly heat: readonly PastHeat[];
  readonly worstHeat: PastHeat | null;
  /** Rise over the last three closed hours [K/h]. */
  readonly coreRiseKPerH: number | null;
  /** The water in the bed now, with what hands did and said since the last closed hour. */
  readonly water: DryWater;
  /** The bad signs that people noted, each as it stands now. */
  readonly handSigns: readonly HandSign[];
}

export function snapshotOf(
  state: JudgeState,
  setup: PileSetup,
  band: ExpectedBand | null,
  nowMs: number,
): PileSnapshot {
  const sight = (position: Position) => sightOf(servedPlace(state, setup, position), nowMs);
  const positions = {
    core: sight('core'),
    top: sight('top'),
    base: sight('base'),
    edge: sight('edge'),
    air: sight('air'),
  };
  const { core } = positions;
  const coreLost = lostBy(state, core);
  const coreKnown = core !== null && core.temperatureC !== null && coreLost === null;
  const heat = heatOf(state, setup, nowMs);
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
    coreRiseKPerH: riseKPerH(state),
    water: waterNow(state, setup, nowMs),
    handSigns: handSigns(setup, nowMs),
  };
}

/** What is remembered of a place; null where no probe has spoken for it since one was last given to it. */
export function servedPlace(state: JudgeState, { served }: PileSetup, position: Position): PositionState | null {
  const place = state.positions[position];
  if (place === null || served === undefined) return place;
  const sinceMs = served[position];
  const track = leadingTrack(place);
  return sinceMs === undefined || track === null || track.heardAtMs < sinceMs ? null : place;
}

/** A failing probe is still believed between its spikes: those are thrown out. */
function lostBy(state: JudgeState, core: PositionSight | null): WarningKind | null {
  const track = state.positions.core?.temperature;
  if (core === null || track == null) return null;
  if (core.silent) return 'probe-silent';
  if (isStuck(track, 'core')) return 'probe-stuck';
  return state.positions.core?.outSinceMs != null || maybeOut(state) ? 'probe-out' : null;
}

/**
 * A core that was warm and now reads like the air may have been pulled out. Until that is known it is not believed, so that it
 * cannot clear an alarm in the meantime.
 */
export function maybeOut(state: JudgeState): boolean {
  const { core, air } = state.positions;
  if (core?.temperature == null || air?.temperature == null || core.hourMeanC === null) return false;
  if (core.suspectH > 0 && core.nearAirH > 0) return true;
  return fellToAir(core.hourMeanC - air.temperature.value, core.temperature.value - air.temperature.value);
}

/** Where a hand has said the same, it speaks for the estimate. */
export function saidByHand({ handSigns }: PileSnapshot, kind: HandKind): HandKind | null {
  return handSigns.some((sign) => sign.kind === kind && sign.state === 'bad') ? kind : null;
}

const leading: readonly PileQuantity[] = [...new Set<PileQuantity>(['temperature', 'moisture', ...pileQuantities])];

/** A place is silent when its temperature is; one that has no thermometer, when everything there is. */
export function leadingTrack(place: PositionState): Track | null {
  for (const quantity of leading) {
    const track = place[quantity];
    if (track !== null) return track;
  }
  return null;
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

function sightOf(place: PositionState | null, nowMs: number): PositionSight | null {
  if (place === null) return null;
  const lead = leadingTrack(place);
  if (lead === null) return null;
  return {
    ...believedOf(place),
    temperatureAtMs: place.temperature?.atMs ?? null,
    everyMs: place.temperature?.intervalMs ?? 0,
    doubted: doubtedOf(place.temperature),
    atMs: heardAtMs(place),
    silent: isSilent(lead, nowMs),
  };
}

const noValues = Object.fromEntries(pileQuantities.map((one) => [quantityFacts[one].key, null])) as Believed;
type Believed = Record<PileQuantityKey, number | null>;

function believedOf(place: PositionState): Believed {
  const values = { ...noValues };
  for (const quantity of pileQuantities) values[quantityFacts[quantity].key] = place[quantity]?.value ?? null;
  return values;
}

function heardAtMs(place: PositionState): number {
  let lastMs = 0;
  for (const quantity of pileQuantities) lastMs = Math.max(lastMs, place[quantity]?.heardAtMs ?? 0);
  return lastMs;
}

/** While one is doubted it was the last that was heard. */
function doubtedOf(track: Track | null): PositionSight['doubted'] {
  return track?.doubted == null ? null : { temperatureC: track.doubted, atMs: track.heardAtMs };
}

function heatOf({ positions }: JudgeState, setup: PileSetup, nowMs: number): PastHeat[] {
  const heats: PastHeat[] = [];
  for (const position of pilePositions) {
    const heat = positions[position]?.heat;
    if (heat != null) heats.push(pastHeat(position, heat, nowMs, setup.noted));
  }
  return heats;
}

function riseKPerH(state: JudgeState): number | null {
  const now = coreAtHour(state, state.hoursDone - 1);
  const before = coreAtHour(state, state.hoursDone - 4);
  return now === null || before === null ? null : (now - before) / 3;
}
