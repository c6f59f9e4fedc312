/**
 * The alarms of one pile, stepped by evidence and by people. It never writes anything itself, or rewinds: a late
 * reading may change what is seen, not what people were notified of.
 */

import type { AlarmRecord, AlarmStepRecord, AlarmWords } from '../../shared/alarm-record.ts';
import {
  type AlarmMachine,
  acknowledgeAlarm,
  isOpen,
  isQuiet,
  shelveAlarm,
  startAlarm,
  stepAlarm,
  unshelveAlarm,
} from '../alarms/alarm.ts';
import { keptDeadline } from '../alarms/deadline.ts';
import { delaysOf } from '../alarms/policies.ts';
import { suppressorOf } from '../alarms/precedence.ts';
import { isStanding } from '../alarms/standing.ts';
import { type Finding, gradeOf } from '../warnings/finding.ts';

export type AlarmHandling =
  | { readonly kind: 'acknowledge' | 'unshelve'; readonly by?: string | undefined; readonly note?: string | undefined }
  | {
      readonly kind: 'shelve';
      readonly minutes: number;
      readonly by?: string | undefined;
      readonly note?: string | undefined;
    };

export interface AlarmChange {
  readonly alarms: AlarmRecord[];
  readonly steps: AlarmStepRecord[];
}

export interface OpenAlarm {
  readonly record: AlarmRecord;
  /** Id of the alarm that explains it. */
  readonly suppressedBy: string | null;
}

interface Slot {
  kind: Finding['kind'] | null;
  position: Finding['position'];
  machine: AlarmMachine;
  record: AlarmRecord | null;
  suppressedBy: Finding['explainedBy'];
}

const keys = new Map<Finding['kind'], Map<Finding['position'], string>>();

/** The same text for all piles: each look asks for some twenty, and each pile keeps them. */
function slotKey({ kind, position }: Pick<Finding, 'kind' | 'position'>): string {
  const ofKind = keys.get(kind) ?? new Map<Finding['position'], string>();
  keys.set(kind, ofKind);
  const key = ofKind.get(position) ?? `${kind}/${position ?? ''}`;
  ofKind.set(position, key);
  return key;
}

export class AlarmRegistry {
  readonly #pileId: string;
  readonly #newId: () => string;
  readonly #slots = new Map<string, Slot>();
  /** As of the last look: from one to the next the same findings stand in the same order. */
  readonly #order: Slot[] = [];

  constructor(pileId: string, open: readonly AlarmRecord[], newId: () => string) {
    this.#pileId = pileId;
    this.#newId = newId;
    for (const record of open) {
      const { kind, position, machine } = record;
      this.#slots.set(slotKey(record), { kind, position, machine, record, suppressedBy: null });
    }
  }

  /** Machines without an open alarm, whose holds are worth keeping over a restart. */
  waiting(): [string, AlarmMachine][] {
    return [...this.#slots]
      .flatMap(([key, slot]) => (slot.record ? [] : [[key, slot.machine] as const]))
      .map(([key, machine]) => [key, machine]);
  }

  /** Whether one of them is about to be raised. */
  isWaiting(): boolean {
    for (const { record, machine } of this.#slots.values())
      if (record === null && machine.hold.condition === 'pending') return true;
    return false;
  }

  restoreWaiting(waiting: readonly (readonly [string, AlarmMachine])[]): void {
    for (const [key, machine] of waiting) {
      if (!this.#slots.has(key))
        this.#slots.set(key, { kind: null, position: null, machine, record: null, suppressedBy: null });
    }
  }

  /** Whether it stands here. */
  has(alarmId: string): boolean {
    for (const { record } of this.#slots.values()) if (record?.id === alarmId) return true;
    return false;
  }

  /** Open alarms with the alarm that holds each back, if any. */
  *open(): Generator<OpenAlarm> {
    for (const { record, suppressedBy } of this.#slots.values()) {
      if (record) yield { record, suppressedBy: suppressedBy && this.#idOfKind(suppressedBy) };
    }
  }

  /** The clock was set back: what is held since a time to come is held since now. */
  clockWasSet(nowMs: number): void {
    for (const slot of this.#slots.values()) {
      const { machine } = slot;
      const hold = { ...machine.hold, sinceMs: Math.min(machine.hold.sinceMs, nowMs) };
      slot.machine = { ...machine, sinceMs: Math.min(machine.sinceMs, nowMs), hold };
    }
  }

  /** One look at everything that was assessed. */
  evaluate(items: readonly Finding[], nowMs: number): AlarmChange {
    const change: AlarmChange = { alarms: [], steps: [] };
    let index = 0;
    for (const item of items) {
      const slot = this.#slotOf(item, index, nowMs);
      index += 1;
      slot.suppressedBy = suppressorOf(item);
      // What another warning explains neither raises nor clears this one.
      const evidence = item.explainedBy === null ? item.evidence : 'missing';
      if (slot.record === null && isQuiet(slot.machine, evidence, nowMs)) continue;
      const { next, arrow } = stepAlarm(
        slot.machine,
        evidence,
        Math.max(nowMs, slot.machine.hold.sinceMs),
        delaysOf(item),
        gradeOf(item),
      );
      this.#move(slot, next, arrow, nowMs, change, item);
    }
    return change;
  }

  /** @returns undefined when no such alarm is open. */
  handle(alarmId: string, handling: AlarmHandling, nowMs: number): AlarmChange | undefined {
    const slot = [...this.#slots.values()].find((one) => one.record?.id === alarmId);
    if (!slot) return undefined;
    const change: AlarmChange = { alarms: [], steps: [] };
    const { next, arrow } = handled(slot.machine, handling, nowMs);
    this.#move(slot, next, arrow, nowMs, change, null, handling);
    return change;
  }

  /** The batch is over: nothing stands any more. */
  closeAll(nowMs: number): AlarmChange {
    const change: AlarmChange = { alarms: [], steps: [] };
    for (const slot of this.#slots.values()) {
      if (!slot.record) continue;
      this.#move(slot, { ...startAlarm(nowMs) }, 'batch-finished', nowMs, change, null);
    }
    this.#slots.clear();
    this.#order.length = 0;
    return change;
  }

  #slotOf(item: Finding, index: number, nowMs: number): Slot {
    const { kind, position } = item;
    const before = this.#order[index];
    if (before !== undefined && before.kind === kind && before.position === position) return before;
    const key = slotKey(item);
    const slot = this.#slots.get(key) ?? {
      kind,
      position,
      machine: startAlarm(nowMs),
      record: null,
      suppressedBy: null,
    };
    slot.kind = kind;
    slot.position = position;
    this.#slots.set(key, slot);
    this.#order[index] = slot;
    return slot;
  }

  #idOfKind(kind: AlarmRecord['kind']): string | null {
    for (const { record } of this.#slots.values()) if (record?.kind === kind) return record.id;
    return null;
  }

  #move(
    slot: Slot,
    next: AlarmMachine,
    arrow: string,
    nowMs: number,
    change: AlarmChange,
    item: Finding | null,
    handling?: AlarmHandling,
  ): void {
    const from = slot.machine.state;
    const moved = next.state !== from;
    const stood = isStanding(slot.machine);
    slot.machine = next;
    if (!slot.record && !isOpen(next)) return;
    if (!slot.record && !item) return;

    const before = slot.record;
    const keptMs = before?.words.byMs ?? null;
    const deadline =
      item?.evidence === 'present' ? keptDeadline(keptMs, item.byMs, !stood && isStanding(next)) : keptMs;
    const record: AlarmRecord = {
      id: before?.id ?? this.#newId(),
      pileId: this.#pileId,
      kind: before?.kind ?? (item as Finding).kind,
      position: before?.position ?? item?.position ?? null,
      severity: next.severity ?? before?.severity ?? 'warning',
      state: next.state,
      raisedAtMs: before?.raisedAtMs ?? nowMs,
      changedAtMs: moved ? nowMs : (before?.changedAtMs ?? nowMs),
      closedAtMs: isOpen(next) ? null : nowMs,
      machine: next,
      words: item?.evidence === 'present' || !before ? wordsOf(item as Finding, deadline) : before.words,
    };
    slot.record = isOpen(next) ? record : null;
    if (!moved && arrow !== 'got-worse') {
      // No step, and nothing to tell; but a deadline that was brought forward must outlast a restart.
      if (before && deadline !== keptMs) change.alarms.push(record);
      return;
    }
    change.alarms.push(record);
    change.steps.push({
      alarmId: record.id,
      atMs: nowMs,
      from,
      to: next.state,
      arrow,
      by: handling?.by ?? null,
      note: handling?.note ?? null,
    });
  }
}

function handled(machine: AlarmMachine, handling: AlarmHandling, nowMs: number) {
  switch (handling.kind) {
    case 'acknowledge':
      return acknowledgeAlarm(machine, nowMs);
    case 'shelve':
      return shelveAlarm(machine, nowMs + handling.minutes * 60_000, nowMs);
    case 'unshelve':
      return unshelveAlarm(machine, nowMs);
  }
}

function wordsOf({ seen, todo, caution, noted }: Finding, byMs: number | null): AlarmWords {
  return { seen, todo, byMs, caution, ...(noted && { noted }) };
}
