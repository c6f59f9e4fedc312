/**
 * Every kind of condition, gravest first. This is the one order in which a pile speaks of them, and in which pages, mail and
 * records list them: what may hurt people, what kills the culture within hours, what hides both, what harms within a day, what
 * only makes it worse.
 *
 * The delays are our own proposal: no published set for piles was found, and a pile's time constant is hours, so that the minutes
 * of process plants would only chatter.
 */
import { positions } from '../names.ts';
import { msPerHour, msPerMinute } from '../units.ts';
import type { Condition } from './condition.ts';

const inPile = ['core', 'top', 'base', 'edge'] as const;
const atOnce = { onDelayMs: 0, offDelayMs: 0 } as const;
const moistureLimits = ['moistureMinFrac', 'moistureMaxFrac'] as const;

export const conditions = [
  {
    kind: 'self-heating',
    about: 'pile',
    // The fire ladder waits for nothing.
    delays: { onDelayMs: 0, offDelayMs: 2 * msPerHour },
    // Everything yields to this hazard: from its third step on nobody may even touch the heap.
    yieldsTo: [],
    restsOn: { limits: [], positions: inPile, also: [], acts: false },
  },
  {
    kind: 'overheating',
    about: 'pile',
    delays: { onDelayMs: 20 * msPerMinute, offDelayMs: 45 * msPerMinute },
    yieldsTo: ['self-heating'],
    restsOn: { limits: ['actC', 'lossC'], positions: inPile, also: [], acts: false },
  },
  {
    kind: 'heat-doubted',
    about: 'pile',
    // The probe's next reading has been waited for already, where it comes soon.
    delays: atOnce,
    yieldsTo: ['self-heating'],
    restsOn: { limits: ['actC'], positions: inPile, also: [], acts: false },
  },
  {
    kind: 'wrong-growth',
    about: 'hand',
    // A person's word holds from when it is given until another is.
    delays: atOnce,
    yieldsTo: ['self-heating', 'overheating'],
    restsOn: { limits: [], positions: [], also: [], acts: false },
  },
  {
    kind: 'bad-smell',
    about: 'hand',
    delays: atOnce,
    // What is opened, mixed or watered before mould is out of it spreads the mould.
    yieldsTo: ['self-heating', 'wrong-growth'],
    restsOn: { limits: [], positions: [], also: [], acts: true },
  },
  {
    kind: 'hand-wet',
    about: 'hand',
    delays: atOnce,
    yieldsTo: ['self-heating', 'wrong-growth'],
    restsOn: { limits: moistureLimits, positions: [], also: ['moisture'], acts: true },
  },
  {
    kind: 'hand-dry',
    about: 'hand',
    delays: atOnce,
    yieldsTo: ['self-heating', 'overheating', 'wrong-growth'],
    restsOn: { limits: moistureLimits, positions: [], also: ['moisture'], acts: true },
  },
  {
    kind: 'probe-silent',
    about: 'probe',
    // The rule has already waited for about three of the probe's own intervals.
    delays: atOnce,
    yieldsTo: ['self-heating'],
    restsOn: { limits: [], positions, also: [], acts: false },
  },
  {
    kind: 'probe-stuck',
    about: 'probe',
    delays: { onDelayMs: 0, offDelayMs: 30 * msPerMinute },
    yieldsTo: ['self-heating'],
    restsOn: { limits: [], positions, also: [], acts: false },
  },
  {
    kind: 'probe-out',
    about: 'probe',
    delays: { onDelayMs: 15 * msPerMinute, offDelayMs: 2 * msPerHour },
    yieldsTo: ['self-heating'],
    restsOn: { limits: [], positions, also: [], acts: true },
  },
  {
    kind: 'overheating-soon',
    about: 'pile',
    delays: { onDelayMs: 20 * msPerMinute, offDelayMs: 2 * msPerHour },
    yieldsTo: ['self-heating', 'overheating', 'wrong-growth'],
    restsOn: { limits: ['actC'], positions: ['core', 'air'], also: ['forecast'], acts: true },
  },
  {
    kind: 'heat-damage',
    about: 'pile',
    // Hours of heat come before it, and only a person ends it.
    delays: atOnce,
    yieldsTo: ['self-heating', 'overheating'],
    restsOn: { limits: ['lossC'], positions: inPile, also: [], acts: false },
  },
  {
    kind: 'drying',
    about: 'pile',
    delays: { onDelayMs: msPerHour, offDelayMs: 2 * msPerHour },
    // A hand in the pile knows more of its water than the balance does.
    yieldsTo: ['self-heating', 'wrong-growth', 'bad-smell', 'hand-wet', 'hand-dry'],
    restsOn: { limits: moistureLimits, positions: ['core'], also: ['moisture'], acts: true },
  },
  {
    kind: 'waterlogged',
    about: 'pile',
    delays: { onDelayMs: 2 * msPerHour, offDelayMs: 3 * msPerHour },
    yieldsTo: ['self-heating', 'wrong-growth', 'hand-wet', 'hand-dry'],
    restsOn: { limits: moistureLimits, positions: ['core'], also: ['moisture'], acts: true },
  },
  {
    kind: 'probes-swapped',
    about: 'pile',
    // Half a day has spoken for it already.
    delays: { onDelayMs: 2 * msPerHour, offDelayMs: 3 * msPerHour },
    // Heat is heat, in whichever of the two places it was measured.
    yieldsTo: ['self-heating', 'overheating', 'heat-doubted', 'overheating-soon'],
    restsOn: { limits: [], positions: ['core', 'top', 'air'], also: [], acts: true },
  },
  {
    kind: 'chilled',
    about: 'pile',
    delays: { onDelayMs: 2 * msPerHour, offDelayMs: 3 * msPerHour },
    yieldsTo: [
      'self-heating',
      'overheating',
      'heat-doubted',
      'wrong-growth',
      'bad-smell',
      'hand-wet',
      'hand-dry',
      'overheating-soon',
      // The core that is too cold may be the top.
      'probes-swapped',
    ],
    restsOn: { limits: ['comfortMinC', 'comfortMaxC'], positions: ['core', 'air'], also: [], acts: false },
  },
  {
    kind: 'stalling',
    about: 'pile',
    delays: { onDelayMs: 2 * msPerHour, offDelayMs: 3 * msPerHour },
    // Beside a pile that is or will be too hot nothing may be heaped or covered.
    yieldsTo: [
      'self-heating',
      'overheating',
      'heat-doubted',
      'wrong-growth',
      // A pile that is too cold to work has its cause.
      'chilled',
      'bad-smell',
      'hand-wet',
      'hand-dry',
      'overheating-soon',
      'probes-swapped',
    ],
    restsOn: {
      limits: ['comfortMinC', 'comfortMaxC', 'lengthMinH', 'lengthMaxH'],
      positions: ['core', 'top', 'base', 'air'],
      also: ['moisture'],
      acts: true,
    },
  },
  {
    kind: 'uneven',
    about: 'pile',
    delays: { onDelayMs: 3 * msPerHour, offDelayMs: 3 * msPerHour },
    yieldsTo: ['self-heating', 'wrong-growth', 'probes-swapped'],
    restsOn: { limits: [], positions: ['core', 'top', 'base'], also: [], acts: true },
  },
] as const satisfies readonly Condition[];
