// Made from ../../en/health.json by `npm run messages`; change that instead.
import type { NoParams, Part } from '../../param-types.ts';

export interface HealthParams {
  'health.store.ok': NoParams;
  'health.store.unreadable': { readonly moreCount: number; readonly rowCount: number; readonly rowsText: string };
  'health.journal.unread': NoParams;
  'health.piles.watched': { readonly pileCount: number };
  'health.piles.unwatched': { readonly pileCount: number; readonly pilesPart: Part; readonly troubledCount: number };
  'health.piles.unkept': { readonly pileCount: number; readonly pilesPart: Part; readonly troubledCount: number };
  'health.piles.missing': { readonly pileCount: number; readonly pilesPart: Part; readonly troubledCount: number };
  'health.piles.named': { readonly moreCount: number; readonly pilesText: string };
  'health.piles.two': { readonly onePart: Part; readonly otherPart: Part };
  'health.disk.unseen': { readonly problemText: string };
  'health.disk.servers': NoParams;
  'health.delivery.failing': { readonly problemText: string };
  'health.delivery.nobody': NoParams;
  'health.delivery.lost': { readonly lostCount: number };
  'health.delivery.set-aside': { readonly asideCount: number };
  'health.delivery.ok': { readonly personCount: number; readonly waitingCount: number };
  'health.audit.ok': NoParams;
  'health.audit.owed': { readonly lostCount: number; readonly missingCount: number };
  'health.broker.connecting': NoParams;
  'health.broker.away': { readonly problemText: string; readonly urlText: string };
  'health.broker.refused': { readonly filtersText: string; readonly urlText: string };
  'health.broker.connected': { readonly urlText: string };
  'health.broker.dropped': { readonly droppedCount: number; readonly urlText: string };
  'health.broker.no-site': NoParams;
  'health.broker.embedded': { readonly clientCount: number; readonly isTls: boolean; readonly tlsText: string; readonly urlText: string };
  'health.broker.not-stored': { readonly problemText: string; readonly waitingCount: number };
  'health.unwell.readings': { readonly problemText: string };
  'health.unwell.journal': { readonly problemText: string };
  'health.unwell.broker': { readonly detailPart: Part };
  'health.unwell.standstill': NoParams;
  'health.heartbeat.off': NoParams;
  'health.heartbeat.ok': NoParams;
  'health.heartbeat.held': { readonly reasonPart: Part };
  'health.heartbeat.no-answer': { readonly problemText: string };
  'health.heartbeat.refused': { readonly statusText: string };
}
