/**
 * What sirens and lamps at a site should do, as retained MQTT messages.
 *
 * The siren speaks of what nobody has acknowledged, the lamp of all that stands; both say `calm` when it is over. It
 * never counts on what it said before: each message tells the whole, and is said again when the broker may have
 * forgotten.
 */
import type { FastifyBaseLogger } from 'fastify';
import { byGravity } from '../../core/alarms/precedence.ts';
import { isSilenced } from '../../core/alarms/standing.ts';
import { adviceOf } from '../../core/say/advice.ts';
import { advisedAlarm } from '../../core/say/alarm-view.ts';
import type { Clock } from '../../shared/clock.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { inWords } from '../../shared/messages/in-words.ts';
import { rankOf, severityOfRank } from '../../shared/notifications.ts';
import type { AlarmRecord, Journal } from '../../shared/store/journal.ts';
import type { Severity } from '../../shared/warning.ts';

export interface SirenParts {
  readonly journal: Pick<Journal, 'alarms' | 'piles' | 'sites'>;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly root: string;
  readonly isSuppressed: (alarmId: string) => boolean;
  /** Alarms as they stand, where the journal could not take that. */
  readonly unkept?: () => readonly AlarmRecord[];
  /** Publishes a message that the broker keeps for whoever comes later. */
  readonly keep: (topic: string, text: string) => void;
}

type SirenWord = Severity | 'calm';

/** Changes of one moment are sent together. */
const gatherMs = 100;
/** A broker that was started anew has forgotten what it kept. */
const againMs = 60_000;

export class Sirens {
  readonly #parts: SirenParts;
  readonly #published = new Map<string, string>();
  #gathering: NodeJS.Timeout | undefined;
  #again: NodeJS.Timeout | undefined;
  #publishing: Promise<void> = Promise.resolve();

  constructor(parts: SirenParts) {
    this.#parts = parts;
  }

  start(): void {
    this.changed();
    this.#again = setInterval(() => {
      this.#published.clear();
      this.changed();
    }, againMs);
    this.#again.unref();
  }

  /** Alarms changed. Cheap. */
  changed(): void {
    this.#gathering ??= setTimeout(() => {
      this.#gathering = undefined;
      this.#publishing = this.#publish().catch((error) =>
        this.#parts.log.warn({ err: error }, 'sirens and lamps could not be set'),
      );
    }, gatherMs);
  }

  async close(): Promise<void> {
    clearTimeout(this.#gathering);
    clearInterval(this.#again);
    await this.#publishing;
  }

  async #publish(): Promise<void> {
    const { journal, clock, root, isSuppressed, keep } = this.#parts;
    const [sites, piles, kept] = await Promise.all([journal.sites.list(), journal.piles.list(), journal.alarms.open()]);
    const unkept = this.#parts.unkept?.() ?? [];
    const open = [...kept.filter(({ id }) => unkept.every((one) => one.id !== id)), ...unkept];
    for (const { id: site } of sites) {
      const own = new Map(piles.flatMap((pile) => (pile.siteId === site ? [[pile.id, pile.name] as const] : [])));
      const standing = open.filter((alarm) => own.has(alarm.pileId) && isAnnounced(alarm) && !isSuppressed(alarm.id));
      const state = siteState(site, standing, own, open);
      const key = JSON.stringify(state);
      if (this.#published.get(site) === key) continue;
      this.#published.set(site, key);
      keep(`${root}/${site}/alarm`, JSON.stringify({ at: toInstant(clock.nowMs()), ...state }));
      keep(`${root}/${site}/siren`, state.siren);
      keep(`${root}/${site}/lamp`, state.lamp);
    }
  }
}

/** Sirens and lamps notify, so that a shelf keeps them quiet. */
const isAnnounced = (alarm: AlarmRecord) => advisedAlarm(alarm).stands && !isSilenced(alarm);

function siteState(
  site: string,
  standing: readonly AlarmRecord[],
  pileNames: ReadonlyMap<string, string>,
  open: readonly AlarmRecord[],
) {
  const todoOf = (alarm: AlarmRecord) => {
    const beside = open.filter(({ pileId }) => pileId === alarm.pileId);
    return inWords({ todo: adviceOf(advisedAlarm(alarm), beside.map(advisedAlarm)).todo }, 0);
  };
  return {
    site,
    siren: worst(standing.filter(({ state }) => state === 'unacknowledged')),
    lamp: worst(standing),
    alarms: standing.toSorted(byGravity).map((alarm) => ({
      id: alarm.id,
      pile: alarm.pileId,
      name: pileNames.get(alarm.pileId) ?? alarm.pileId,
      kind: alarm.kind,
      severity: alarm.severity,
      acknowledged: alarm.state === 'acknowledged',
      since: toInstant(alarm.raisedAtMs),
      ...todoOf(alarm),
    })),
  };
}

function worst(alarms: readonly AlarmRecord[]): SirenWord {
  const rank = Math.max(-1, ...alarms.map(({ severity }) => rankOf(severity)));
  return rank < 0 ? 'calm' : severityOfRank(rank);
}
