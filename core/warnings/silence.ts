/** Probes that have stopped talking, each against its own rhythm. */
import type { ProbeKind } from '../../shared/conditions/kinds.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import type { Position } from '../../shared/names.ts';
import { msPerHour } from '../../shared/units.ts';
import { isByHand } from '../estimate/hand-reading.ts';
import { leadingTrack } from '../estimate/position.ts';
import { isSilent, silentAfterMs, type Track } from '../estimate/track.ts';
import { cautions } from '../profiles/cautions.ts';
import { type Finding, nothingToDo } from './finding.ts';
import type { PileSnapshot } from './snapshot.ts';

export function silentFinding(pile: PileSnapshot, position: Position): Finding<'probe-silent'> | null {
  const followed = pile.state.positions[position];
  const sight = pile.positions[position];
  const track = followed === null ? null : leadingTrack(followed);
  if (followed === null || track === null) return null;
  return sight === null || isByHand(followed)
    ? noProbeFinding('probe-silent', position)
    : silence(pile, position, track, isSilent(track, pile.nowMs));
}

/** Of a position that was measured, and has no probe now: whatever stood of its probe ends. */
export function noProbeFinding<Kind extends ProbeKind>(kind: Kind, position: Position): Finding<Kind> {
  return {
    kind,
    position,
    evidence: 'absent',
    severity: 'notice',
    seen: noProbe,
    todo: nothingToDo,
    byMs: null,
    caution: null,
    why: whyNoProbe,
    explainedBy: null,
  };
}

const noProbe = message('warnings.probe.seen.none');
const whyNoProbe = message('why.probe-none');

function silence(pile: PileSnapshot, position: Position, track: Track, silent: boolean): Finding<'probe-silent'> {
  const core = position === 'core';
  const lastC = pile.state.positions[position]?.temperature?.value ?? null;
  return {
    kind: 'probe-silent',
    position,
    evidence: silent ? 'present' : 'absent',
    severity: core ? 'warning' : 'notice',
    seen: silent ? silentSeen(position, pile.nowMs - track.heardAtMs, lastC) : speaks,
    todo: silent ? (core ? handFirst : seeToProbe) : nothingToDo,
    byMs: silent ? pile.nowMs + (core ? 2 : 24) * msPerHour : null,
    caution: silent && core ? cautions.unknownHeat : null,
    why: whyOf(track),
    explainedBy: null,
  };
}

function silentSeen(position: Position, silentMs: number, lastC: number | null): Message {
  return lastC === null
    ? message('warnings.probe-silent.seen.silent', { position, silentMs })
    : message('warnings.probe-silent.seen.silent-after', { position, silentMs, lastC });
}

const speaks = message('warnings.probe-silent.seen.none');
const handFirst = message('warnings.probe-silent.todo.core');
const seeToProbe = message('warnings.probe-silent.todo.other');

/** Worked out anew each time: what is said of a probe must not depend on when it was asked for before. */
function whyOf(track: Track): Message {
  const { intervalMs } = track;
  const allowedMs = silentAfterMs(track);
  return intervalMs === 0
    ? message('why.probe-silent.new', { allowedMs })
    : message('why.probe-silent', { everyMs: intervalMs, allowedMs });
}
