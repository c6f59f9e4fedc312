/** Whether push messages can go out: our keys are whole, and each service that a device of ours uses can be reached. */
import { z } from 'zod';
import { jsonOf } from '../../shared/json-of.ts';
import type { InspectedJournal } from '../../shared/store/journal/inspected-journal.ts';
import { layoutOf } from '../../shared/store/open/inspect-journal.ts';
import { type GuardedOptions, guardedRequest } from '../notify/channels/guarded-request.ts';
import { keysSetting, pairSchema } from '../notify/channels/push-keys.ts';
import { allowedKey } from '../notify/delivery-settings.ts';
import { type Finding, messageOf } from './finding.ts';

const part = 'push';
const patienceMs = 5_000;
const noDevice = {
  part,
  state: 'off',
  says: 'no device takes push messages yet (My notifications; a phone can from an https address only)',
} as const;

/** @param open The journal, which knows devices and keys; undefined where there is none yet. */
export async function checkPush(
  open: () => Promise<InspectedJournal | undefined>,
  guard: Pick<GuardedOptions, 'trust' | 'lookup'> = {},
): Promise<Finding> {
  try {
    const look = await open();
    if (look === undefined) return noDevice;
    // Tables of another version may lack what is asked for; the journal says so itself.
    if ((await layoutOf(look)).missing > 0) return noDevice;
    const services = servicesOf(await look.ask('SELECT endpoint FROM push_device'));
    if (services.length === 0) return noDevice;
    if (!isWholePair(await settingOf(look, keysSetting))) {
      return {
        part,
        state: 'wrong',
        says: 'the keys that push services know this server by are damaged',
        mend: 'start the server: it makes new ones, and says to whom; each device then has to be set up again',
      };
    }
    const allowed = z.array(z.string()).safeParse(jsonOf(await settingOf(look, allowedKey)));
    return await reached(services, { ...guard, allowed: allowed.data ?? [], timeoutMs: patienceMs });
  } catch {
    return { part, state: 'wrong', says: 'devices and keys stand in the journal, which cannot be read (see there)' };
  }
}

async function reached(services: readonly string[], options: GuardedOptions): Promise<Finding> {
  const away: string[] = [];
  for (const service of services) {
    try {
      // Whatever it answers: a push message needs a device of its own.
      await guardedRequest({ method: 'GET', url: service, headers: {} }, options);
    } catch (error) {
      away.push(`${service} (${messageOf(error)})`);
    }
  }
  if (away.length === 0) {
    return { part, state: 'ok', says: `our keys are whole, and ${services.join(', ')} can be reached` };
  }
  return {
    part,
    state: 'wrong',
    says: `no way to ${away.join(', ')}`,
    mend: 'let this machine open connections to the internet, port 443; one in your own network an owner allows under My notifications',
  };
}

/** Each once. */
function servicesOf(rows: readonly Record<string, unknown>[]): string[] {
  const origins = rows.flatMap(({ endpoint }) =>
    typeof endpoint === 'string' && URL.canParse(endpoint) ? [new URL(endpoint).origin] : [],
  );
  return [...new Set(origins)].sort();
}

/** @param key One of ours, never given from outside. */
async function settingOf(look: InspectedJournal, key: string): Promise<string> {
  const [row] = await look.ask(`SELECT value FROM setting WHERE key = '${key}'`);
  return typeof row?.value === 'string' ? row.value : '';
}

const isWholePair = (text: string) => pairSchema.safeParse(jsonOf(text)).success;
