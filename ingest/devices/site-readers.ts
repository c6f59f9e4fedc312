import { BoundedMap } from '../../shared/bounded-map.ts';
import { deviceSite } from '../../shared/names.ts';
import { isNoProbesTopic } from '../../shared/published-topics.ts';
import { isFamilyTopic } from './device-topic.ts';
import { type DiscoveredDevices, openDiscovered } from './discovered-devices.ts';
import { deviceFamilies } from './families.ts';
import type { DeviceFamily, FamilyReader } from './family.ts';

/** Of one site: what one site's devices are called says nothing of another's. */
export interface Readers {
  readonly families: ReadonlyMap<DeviceFamily, FamilyReader>;
  readonly discovered: DiscoveredDevices;
}

export interface SiteReadersParts {
  /** First level of our own topics, which no device can claim for itself. */
  readonly root: string;
  /** Devices behind an outside broker introduced others than before. */
  introducedChanged(): void;
}

const rememberedSites = 200;

/** The readers of each site, opened when its first device speaks. */
export class SiteReaders {
  readonly #parts: SiteReadersParts;
  readonly #sites = new BoundedMap<Readers>(rememberedSites);
  /** Worked out when it is asked for, which is with every message of an outside broker. */
  #introduced: ReadonlySet<string> | undefined;

  constructor(parts: SiteReadersParts) {
    this.#parts = parts;
  }

  at(site: string): Readers {
    const known = this.#sites.get(site);
    if (known !== undefined) return known;
    const opened: Readers = {
      families: new Map(deviceFamilies.map((family) => [family, family.open()])),
      discovered: openDiscovered(
        (topic) => isNoProbesTopic(topic, this.#parts.root),
        () => this.#discoveredChanged(site),
      ),
    };
    this.#sites.set(site, opened);
    return opened;
  }

  /** Topics that devices behind an outside broker introduced, beside the standing ones. */
  introducedTopics(): ReadonlySet<string> {
    this.#introduced ??= new Set(
      this.#sites
        .get(deviceSite)
        ?.discovered.topics()
        .filter((topic) => !isFamilyTopic(topic)),
    );
    return this.#introduced;
  }

  #discoveredChanged(site: string): void {
    // An outside broker tells no keys, so all it brings is of one site.
    if (site !== deviceSite) return;
    this.#introduced = undefined;
    this.#parts.introducedChanged();
  }
}
