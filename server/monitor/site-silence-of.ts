import { type ProbeRhythm, siteSilence } from '../../core/notify/site-silence.ts';
import type { SiteSilenceSeen } from '../pile/alarm-notices.ts';
import type { OwnPile } from '../pile/watched-pile.ts';

/** Whether everything at a site has fallen silent, as far as its piles are watched here. */
export function siteSilenceOf(piles: Iterable<OwnPile>, siteId: string, nowMs: number): SiteSilenceSeen {
  const rhythms = new Map<string, ProbeRhythm>();
  const pileNames: string[] = [];
  for (const { pile, watch, sources } of piles) {
    if (pile.siteId !== siteId || !watch.batch) continue;
    pileNames.push(pile.name);
    for (const { position, ...rhythm } of watch.rhythms()) {
      const source = sources.find((one) => one.position === position && one.claim.toMs === null);
      if (source) rhythms.set(source.claim.probe, rhythm);
    }
  }
  return { ...siteSilence([...rhythms.values()], nowMs), probeCount: rhythms.size, pileNames };
}
