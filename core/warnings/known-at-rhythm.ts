/** What can be known of a core that is read seldom, said once, beside the rule of what it concerns. */
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { msPerHour } from '../../shared/units.ts';
import { isSeldom } from '../estimate/between.ts';
import { stallAfterH } from '../estimate/stall.ts';
import type { PileSnapshot } from './snapshot.ts';

/** An hour waits for the reading after it, and a fall for the one that bears it out. */
const stallReadings = 2;

/** @param why The rule, as it is where readings come often. */
export function knownAtRhythm(why: Message, kind: 'overheating' | 'drying' | 'stalling', pile: PileSnapshot): Message {
  const track = pile.state.positions.core?.temperature;
  if (track == null || track.intervalMs === 0 || !isSeldom(track)) return why;
  const { intervalMs: everyMs } = track;
  switch (kind) {
    case 'overheating':
      return paragraph(why, message('why.rhythm.overheating', { everyMs, limitC: pile.setup.limits.actC }));
    case 'drying':
      return paragraph(why, message('why.rhythm.drying', { everyMs }));
    case 'stalling': {
      const afterMs = Math.max(stallReadings * everyMs, stallAfterH * msPerHour + everyMs);
      return paragraph(why, message('why.rhythm.stalling', { everyMs, afterMs }));
    }
  }
}
