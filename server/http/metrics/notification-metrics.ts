import { Gauge } from 'prom-client';
import { messageStates, notificationChannels } from '../../../shared/notifications.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { alarmStates } from '../../../shared/warning.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import { addGauge, type MetricsRegistry } from './registers.ts';

interface NotificationMetricsParts {
  readonly watch: PilePort;
  readonly journal: Journal;
}

/** Alarms that are open, and whether people get word of them. */
export function addNotificationMetrics(registry: MetricsRegistry, { watch, journal }: NotificationMetricsParts): void {
  const registers = [registry];
  const { messages } = journal.notifications;
  new Gauge({
    name: 'branhearth_alarms',
    help: 'Open alarms by state',
    labelNames: ['state'],
    registers,
    collect() {
      this.reset();
      for (const state of alarmStates) this.set({ state }, 0);
      for (const one of watch.all()) for (const state of one.openAlarms()) this.inc({ state });
    },
  });
  new Gauge({
    name: 'branhearth_messages_to_people',
    help: 'Messages to people by channel and state, of the last 90 days',
    labelNames: ['channel', 'state'],
    registers,
    async collect() {
      this.reset();
      for (const channel of notificationChannels) for (const state of messageStates) this.set({ channel, state }, 0);
      for (const { channel, state, count } of await messages.counts()) this.set({ channel, state }, count);
    },
  });
  const unseenHelp = 'Messages that could not be delivered and that nobody has looked at';
  addGauge(registry, 'branhearth_messages_unseen', unseenHelp, async () =>
    (await messages.counts()).reduce((sum, row) => sum + (row.state === 'given-up' ? row.unseen : 0), 0),
  );
}
