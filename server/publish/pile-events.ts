/** Publishes what happens at piles, each once and never again: whoever was not there reads the state. */
import type { Outgoing } from '../../ingest/commit/inbound-source.ts';
import type { PileEvent } from '../../shared/contracts/published.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { eventTopic } from '../../shared/published-topics.ts';
import type { EntryRecord, PileRecord, WatchChange } from '../../shared/store/journal.ts';
import type { Phase } from '../../shared/warning.ts';
import { alarmEventOf } from './alarm-event.ts';
import type { PublishingChoice } from './publishing-choice.ts';

type EventPile = Pick<PileRecord, 'id' | 'siteId'>;

export interface PileEventsParts {
  readonly root: string;
  readonly choice: Pick<PublishingChoice, 'now'>;
  readonly say: (site: string, message: Outgoing) => void;
}

export class PileEvents {
  readonly #parts: PileEventsParts;

  constructor(parts: PileEventsParts) {
    this.#parts = parts;
  }

  alarmsChanged(pile: EventPile, { alarms, steps }: Pick<WatchChange, 'alarms' | 'steps'>): void {
    for (const step of steps) {
      const event = alarmEventOf(step);
      const alarm = alarms.findLast(({ id }) => id === step.alarmId);
      if (event === undefined || alarm === undefined) continue;
      const { id, kind, severity, position } = alarm;
      this.#say(pile, { ...ofPile(pile, step.atMs), event, alarm: { id, kind, severity, position } });
    }
  }

  phaseChanged(pile: EventPile, batch: string, from: Phase, to: Phase, atMs: number): void {
    this.#say(pile, { ...ofPile(pile, atMs), event: 'phase-changed', batch, from, to });
  }

  entryWritten(pile: EventPile, entry: EntryRecord): void {
    const { entryId: id, version, what, atMs, recordedAtMs, withdrawn } = entry;
    const written = { id, version, kind: what.kind, about: toInstant(atMs), withdrawn };
    this.#say(pile, { ...ofPile(pile, recordedAtMs), event: 'entry-written', entry: written });
  }

  #say({ id, siteId }: EventPile, event: PileEvent): void {
    const { root, choice, say } = this.#parts;
    if (choice.now()?.states !== true) return;
    say(siteId, { topic: eventTopic(root, siteId, id), text: JSON.stringify(event), retain: false });
  }
}

const ofPile = ({ id, siteId }: EventPile, atMs: number) =>
  ({ version: 1, at: toInstant(atMs), site: siteId, pile: id }) as const;
