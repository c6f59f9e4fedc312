/** A pile that overheats on a clock of its own, and a server that tells people of it. */
import type { InstallationParts } from '../../../server/app/installation.ts';
import type { Clock } from '../../../shared/clock.ts';
import type { AlarmDetail } from '../../../shared/contracts/alarms.ts';
import { alarmsAnswerSchema } from '../../../shared/contracts/alarms.ts';
import { type Preferences, preferencesSchema } from '../../../shared/notifications.ts';
import { commitReadings } from '../../helpers/commit-readings.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import { until } from '../../helpers/until.ts';

const minuteMs = 60_000;
const laidMs = Date.UTC(2031, 4, 1, 6);

export interface NotifyFarm {
  readonly one: TestInstallation;
  nowMs: number;
  post(url: string, payload?: object): Promise<unknown>;
  measure(coreC: number): Promise<void>;
  /** Warms the core to `peakC` over hours and holds it until the alarm stands. */
  overheat(peakC?: number): Promise<AlarmDetail>;
  alarms(): Promise<AlarmDetail[]>;
  prefer(preferences: Partial<Preferences>, personId?: string): Promise<void>;
  reopen(): Promise<void>;
  close(): Promise<void>;
}

export async function openNotifyFarm(
  environment: Record<string, string>,
  guard: NonNullable<InstallationParts['guard']> = {},
): Promise<NotifyFarm> {
  const { dataDir, remove } = await makeDataDir();
  const clock: Clock = { nowMs: () => farm.nowMs, speed: 1 };
  let one: TestInstallation;
  const farm: NotifyFarm = {
    nowMs: laidMs,
    get one() {
      return one;
    },
    async post(url, payload = {}) {
      const answer = await one.app.inject({ method: 'POST', url, payload });
      if (answer.statusCode >= 300) throw new Error(`${url}: ${answer.body}`);
      return answer.body === '' ? undefined : answer.json();
    },
    async measure(coreC) {
      const reading = {
        site: 'saltmere-yard',
        probe: 'p1',
        quantity: 'temperature' as const,
        value: coreC,
        atMs: farm.nowMs,
      };
      await commitReadings(one.installation, [reading]);
    },
    async overheat(peakC = 53) {
      for (let step = 0; step < (peakC - 24) * 3 + 12; step++) {
        farm.nowMs += 10 * minuteMs;
        await farm.measure(Math.min(peakC, 24 + step / 3));
      }
      return until('the alarm', async () => {
        farm.nowMs += 10 * minuteMs;
        await farm.measure(peakC);
        await new Promise((resolve) => setTimeout(resolve, 250));
        return (await farm.alarms()).find(({ kind, state }) => kind === 'overheating' && state === 'unacknowledged');
      });
    },
    async alarms() {
      return alarmsAnswerSchema.parse((await one.app.inject({ url: '/api/piles/shed/alarms' })).json()).alarms;
    },
    async prefer(preferences, personId = 'server') {
      const whole = preferencesSchema.parse(preferences);
      const { notifications } = one.installation.journal;
      await notifications.preferences.set(personId, whole);
      if (whole.email.address !== '')
        await notifications.mailAddresses.confirm(personId, whole.email.address, Date.now());
    },
    async reopen() {
      await one.close();
      one = await openTestInstallation(dataDir, environment, clock, { guard });
    },
    async close() {
      await one.close();
      await remove();
    },
  };
  one = await openTestInstallation(dataDir, environment, clock, { guard });
  await farm.post('/api/sites', { name: 'Saltmere Yard' });
  await farm.post('/api/piles', { site: 'saltmere-yard', id: 'shed', name: 'Shed', stage: 'bran' });
  await farm.measure(24);
  await farm.post('/api/probes/saltmere-yard/p1/claim', { pileId: 'shed', position: 'core' });
  return farm;
}
