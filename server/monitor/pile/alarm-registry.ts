/**
 * The alarms of one pile, stepped by evidence and by people. It never writes anything itself, or rewinds: a late
 * reading may change what is seen, not what people were told.
 */
import {
  type AlarmMachine,
  acknowledgeAlarm,
  isOpen,
  shelveAlarm,
  startAlarm,
  stepAlarm,
  unshelveAlarm,
} from '../../../core/alarms/alarm.ts';
import { keptDeadline } from '../../../core/alarms/deadline.ts';
import { delaysOf } from '../../../core/alarms/policies.ts';
import { holderOf } from '../../../core/alarms/precedence.ts';
import { isStanding } from '../../../core/alarms/standing.ts';
import { type Finding, gradeOf } from '../../../core/warnings/finding.ts';
import type { AlarmWords } from '../../../shared/alarm-record.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import type { AlarmRecord, AlarmStepRecord } from '../../../shared/store/journal.ts';

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

interface Place {
  machine: AlarmMachine;
  record: AlarmRecord | null;
  heldBackBy: Finding['explainedBy'];
}

const keys = new Map<Finding['kind'], Map<Finding['position'], string>>();

/** The same text for all piles: each look asks for some twenty, and each pile keeps them. */
function placeKey({ kind, position }: Pick<Finding, 'kind' | 'position'>): string {
  const ofKind = keys.get(kind) ?? new Map<Finding['position'], string>();
  keys.set(kind, ofKind);
  const key = ofKind.get(position) ?? `${kind}/${position ?? ''}`;
  ofKind.set(position, key);
  return key;
}

export class AlarmRegistry {
  readonly #pileId: string;
  readonly #newId: () => string;
  readonly #places = new Map<string, Place>();

  constructor(pileId: string, open: readonly AlarmRecord[], newId: () => string) {
    this.#pileId = pileId;
    this.#newId = newId;
    for (const record of open) {
      this.#places.set(placeKey(record), { machine: record.machine, record, heldBackBy: null });
    }
  }

  /** Machines without an open alarm, whose holds are worth keeping over a restart. */
  waiting(): [string, AlarmMachine][] {
    return [...this.#places]
      .flatMap(([key, place]) => (place.record ? [] : [[key, place.machine] as const]))
      .map(([key, machine]) => [key, machine]);
  }

  restoreWaiting(waiting: readonly (readonly [string, AlarmMachine])[]): void {
    for (const [key, machine] of waiting) {
      if (!this.#places.has(key)) this.#places.set(key, { machine, record: null, heldBackBy: null });
    }
  }

  /** Whether it stands here. */
  has(alarmId: string): boolean {
    for (const { record } of this.#places.values()) if (record?.id === alarmId) return true;
    return false;
  }

  /** Open alarms with the alarm that holds each back, if any. */
  *open(): Generator<{ record: AlarmRecord; heldBackBy: string | null }> {
    for (const { record, heldBackBy } of this.#places.values()) {
      if (record) yield { record, heldBackBy: heldBackBy && this.#idOfKind(heldBackBy) };
    }
  }

  /** The clock was set back: what is held since a time to come is held since now. */
  clockWasSet(nowMs: number): void {
    for (const place of this.#places.values()) {
      const { machine } = place;
      const hold = { ...machine.hold, sinceMs: Math.min(machine.hold.sinceMs, nowMs) };
      place.machine = { ...machine, sinceMs: Math.min(machine.sinceMs, nowMs), hold };
    }
  }

  /** One look at everything that was assessed. */
  look(items: readonly Finding[], nowMs: number): AlarmChange {
    const change: AlarmChange = { alarms: [], steps: [] };
    for (const item of items) {
      const key = placeKey(item);
      const place = this.#places.get(key) ?? { machine: startAlarm(nowMs), record: null, heldBackBy: null };
      this.#places.set(key, place);
      place.heldBackBy = holderOf(item);
      // What another warning explains neither raises nor clears this one.
      const evidence = item.explainedBy === null ? item.evidence : 'missing';
      const { next, arrow } = stepAlarm(
        place.machine,
        evidence,
        Math.max(nowMs, place.machine.hold.sinceMs),
        delaysOf(item),
        gradeOf(item),
      );
      this.#move(place, next, arrow, nowMs, change, item);
    }
    return change;
  }

  /** @returns undefined when no such alarm is open. */
  handle(alarmId: string, handling: AlarmHandling, nowMs: number): AlarmChange | undefined {
    const place = [...this.#places.values()].find((one) => one.record?.id === alarmId);
    if (!place) return undefined;
    const change: AlarmChange = { alarms: [], steps: [] };
    const { next, arrow } = handled(place.machine, handling, nowMs);
    this.#move(place, next, arrow, nowMs, change, null, handling);
    return change;
  }

  /** The batch is over: nothing stands any more. */
  closeAll(nowMs: number): AlarmChange {
    const change: AlarmChange = { alarms: [], steps: [] };
    for (const place of this.#places.values()) {
      if (!place.record) continue;
      this.#move(place, { ...startAlarm(nowMs) }, 'batch-finished', nowMs, change, null);
    }
    this.#places.clear();
    return change;
  }

  #idOfKind(kind: AlarmRecord['kind']): string | null {
    for (const { record } of this.#places.values()) if (record?.kind === kind) return record.id;
    return null;
  }

  #move(
    place: Place,
    next: AlarmMachine,
    arrow: string,
    nowMs: number,
    change: AlarmChange,
    item: Finding | null,
    handling?: AlarmHandling,
  ): void {
    const from = place.machine.state;
    const moved = next.state !== from;
    const stood = isStanding(place.machine);
    place.machine = next;
    if (!place.record && !isOpen(next)) return;
    if (!place.record && !item) return;

    const before = place.record;
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
    place.record = isOpen(next) ? record : null;
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
  return {
    seen: plainEnglish(seen),
    todo: plainEnglish(todo),
    byMs,
    caution: caution && plainEnglish(caution),
    ...(noted && { noted }),
  };
}
