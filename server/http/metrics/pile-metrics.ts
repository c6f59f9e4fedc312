/**
 * Figures of piles for programs that gather them. Each is what the probe there said last, however long ago:
 * `branhearth_probe_last_heard_timestamp_seconds` says since when. Probes of no pile are left out; there may be many.
 */
import { Gauge } from 'prom-client';
import { isHandProbe } from '../../../shared/hand-series.ts';
import { pileQuantities, quantityFacts } from '../../../shared/quantity.ts';
import { alarmStates } from '../../../shared/warning.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import type { KnownProbe, ProbeBook } from '../../services/probes/probe-book.ts';
import type { MetricsRegistry } from './registers.ts';

interface PileMetricsParts {
  readonly watch: PilePort;
  readonly probes: ProbeBook;
  readonly version: string;
}

/** Base units of OpenMetrics where it has one: shares rather than per cent. */
const unitNames: Readonly<Record<string, readonly [name: string, scale: number]>> = {
  '°C': ['celsius', 1],
  '%RH': ['ratio', 0.01],
  '% of volume': ['ratio', 0.01],
};

interface ProbeInPile {
  readonly labels: Readonly<Record<'site' | 'pile' | 'position', string>>;
  readonly known: KnownProbe;
}

export function addPileMetrics(registry: MetricsRegistry, parts: PileMetricsParts): void {
  addLastReadings(registry, parts);
  addLastHeard(registry, parts);
  addAlarmsOfPiles(registry, parts);
  new Gauge({
    name: 'branhearth_build_info',
    help: 'Always 1; the version is its label',
    labelNames: ['version'],
    registers: [registry],
    collect() {
      this.set({ version: parts.version }, 1);
    },
  });
}

function addLastReadings(registry: MetricsRegistry, parts: PileMetricsParts): void {
  for (const quantity of pileQuantities) {
    const { unit } = quantityFacts[quantity];
    const [name, scale] = unitNames[unit] ?? [unit.toLowerCase().replaceAll(/\W+/g, '_'), 1];
    new Gauge({
      name: `branhearth_pile_${quantity}_${name}`,
      help: `What the probe at this position said last of ${quantity}`,
      labelNames: ['site', 'pile', 'position'],
      registers: [registry],
      collect() {
        this.reset();
        for (const { labels, known } of probesInPiles(parts)) {
          const last = known.last[quantity];
          if (last !== undefined) this.set(labels, last.value * scale);
        }
      },
    });
  }
}

function addLastHeard(registry: MetricsRegistry, parts: PileMetricsParts): void {
  new Gauge({
    name: 'branhearth_probe_last_heard_timestamp_seconds',
    help: 'When the newest reading of a probe in a pile was measured',
    labelNames: ['site', 'pile', 'position', 'probe'],
    registers: [registry],
    collect() {
      this.reset();
      for (const { labels, known } of probesInPiles(parts))
        if (known.lastAtMs !== null) this.set({ ...labels, probe: known.probe }, known.lastAtMs / 1000);
    },
  });
}

function addAlarmsOfPiles(registry: MetricsRegistry, { watch }: PileMetricsParts): void {
  new Gauge({
    name: 'branhearth_pile_alarms',
    help: 'Open alarms of a pile by state; a pile without any has zeros',
    labelNames: ['site', 'pile', 'state'],
    registers: [registry],
    collect() {
      this.reset();
      for (const one of watch.all()) {
        const labels = { site: one.pile.siteId, pile: one.pile.id };
        for (const state of alarmStates) this.set({ ...labels, state }, 0);
        for (const state of one.openAlarms()) this.inc({ ...labels, state });
      }
    },
  });
}

/** The probes that serve a pile now; what was measured by hand is none. */
function* probesInPiles({ watch, probes }: Pick<PileMetricsParts, 'watch' | 'probes'>): Generator<ProbeInPile> {
  for (const { pile, sources } of watch.all()) {
    for (const { claim, position } of sources) {
      if (claim.toMs !== null || isHandProbe(claim.probe)) continue;
      const known = probes.get(claim.site, claim.probe);
      if (known !== undefined) yield { labels: { site: pile.siteId, pile: pile.id, position }, known };
    }
  }
}
