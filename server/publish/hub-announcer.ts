/**
 * Introduces piles to home automation hubs, retained, where an owner wants that; and takes them back. It says a pile
 * again only where something of its introduction changed, or where somebody may have forgotten it.
 */
import type { Ingest } from '../../ingest/ingest.ts';
import type { PileSummary } from '../../shared/contracts/piles.ts';
import { positions } from '../../shared/names.ts';
import { hubDeviceTopic } from '../../shared/published-topics.ts';
import type { PileRecord } from '../../shared/store/journal.ts';
import { allParts, type HubDeviceParts, hubDevice, type OfferedPile, partsOffered } from './hub-device.ts';
import type { PublishingChoice } from './publishing-choice.ts';

export interface HubAnnouncerParts extends HubDeviceParts {
  readonly choice: Pick<PublishingChoice, 'hub'>;
  readonly say: Ingest['say'];
}

interface Said {
  /** Of what it was made; undefined where somebody may have forgotten it. */
  readonly of: string | undefined;
  readonly parts: readonly string[];
}

export class HubAnnouncer {
  readonly #parts: HubAnnouncerParts;
  readonly #said = new Map<string, Said>();

  constructor(parts: HubAnnouncerParts) {
    this.#parts = parts;
  }

  /** How a pile stands was looked at. */
  follow(pile: PileRecord, summary: Pick<PileSummary, 'positions'>): void {
    const hub = this.#parts.choice.hub();
    if (hub === undefined) return;
    const before = this.#said.get(pile.id);
    // The air of a neighbour was not measured at this pile.
    const places = positions.filter((place) => summary.positions[place] && !summary.positions[place].ofPile);
    const of = hub === 'off' ? hub : JSON.stringify([pile.name, places, hub]);
    if (before?.of === of) return;
    if (hub === 'off') {
      this.#said.set(pile.id, { of, parts: [] });
      this.#say(pile, '');
      return;
    }
    const offered: OfferedPile = { pile, places, mayAcknowledge: hub === 'acknowledges' };
    const parts = partsOffered(offered);
    // What it had in an earlier run is not known, so at first whatever it has not is taken away.
    const withdrawn = (before?.parts ?? allParts).filter((part) => !parts.includes(part));
    if (withdrawn.length > 0) this.#say(pile, JSON.stringify(hubDevice(this.#parts, offered, withdrawn)));
    this.#said.set(pile.id, { of, parts });
    this.#say(pile, JSON.stringify(hubDevice(this.#parts, offered)));
  }

  gone(pile: Pick<PileRecord, 'id' | 'siteId'>): void {
    this.#said.delete(pile.id);
    if (this.#parts.choice.hub() !== undefined) this.#say(pile, '');
  }

  /** Others may have forgotten: each pile is introduced anew when it is looked at next. */
  forget(pileId?: string): void {
    const which = pileId === undefined ? [...this.#said.keys()] : [pileId];
    for (const id of which) {
      const before = this.#said.get(id);
      if (before) this.#said.set(id, { ...before, of: undefined });
    }
  }

  #say({ id, siteId }: Pick<PileRecord, 'id' | 'siteId'>, text: string): void {
    const { root, say } = this.#parts;
    say(siteId, { topic: hubDeviceTopic(root, id), text, retain: true });
  }
}
