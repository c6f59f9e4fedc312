/** Whether this device takes pushed messages, and subscribing it. */
import { isSubscribedWith, pushEnded } from '../../data/forget-this-device.ts';
import { addDevice } from './notifications-api.ts';
import type { NotificationWords } from './use-notification-words.ts';

/** `other-keys`: subscribed with keys that this server no longer uses, so nothing reaches it. */
export type DeviceState = 'ready' | 'subscribed' | 'other-keys' | 'forbidden' | 'not-here' | 'not-safe';

/** Why or whether this device can be notified; push needs a page over TLS, or of this very machine. */
export async function deviceState(pushKey: string): Promise<DeviceState> {
  if (!isSecureContext) return 'not-safe';
  if (!('serviceWorker' in navigator) || !('PushManager' in window) || !('Notification' in window)) return 'not-here';
  if (Notification.permission === 'denied') return 'forbidden';
  const worker = await navigator.serviceWorker.getRegistration();
  const subscription = await worker?.pushManager.getSubscription();
  if (!subscription) return 'ready';
  return isSubscribedWith(subscription, pushKey) ? 'subscribed' : 'other-keys';
}

/** Asks the person's leave, subscribes with the server's key and tells the server. @throws {Error} in words for the page. */
export async function subscribeThisDevice(pushKey: string, words: Pick<NotificationWords, 'text'>): Promise<void> {
  const { text } = words;
  if ((await Notification.requestPermission()) !== 'granted') {
    throw new Error(text('page-notifications.device.not-allowed'));
  }
  const worker = await navigator.serviceWorker.getRegistration();
  if (!worker) throw new Error(text('page-notifications.device.not-installed'));
  const subscription = await subscribed(worker, pushKey, words);
  const { endpoint, keys } = subscription.toJSON();
  if (!endpoint || !keys?.p256dh || !keys.auth) throw new Error(text('page-notifications.device.no-address'));
  await addDevice({
    endpoint,
    keys: { p256dh: keys.p256dh, auth: keys.auth },
    label: deviceName(navigator.userAgent, words),
  });
  pushEnded.set(null);
}

async function subscribed(
  worker: ServiceWorkerRegistration,
  pushKey: string,
  { text }: Pick<NotificationWords, 'text'>,
): Promise<PushSubscription> {
  try {
    return await worker.pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: pushKey });
  } catch (error) {
    // A subscription with another server's key stands in the way.
    const old = await worker.pushManager.getSubscription();
    if (!old) throw new Error(text('page-notifications.device.no-service'), { cause: error });
    await old.unsubscribe();
    return worker.pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: pushKey });
  }
}

/** What a user agent holds, all of it, and the kind of device that says so. */
const kinds = [
  [['iPhone'], 'iphone'],
  [['iPad'], 'ipad'],
  [['Android', 'Mobile'], 'android-phone'],
  [['Android'], 'android-tablet'],
  [['Macintosh'], 'mac'],
  [['Windows'], 'windows'],
  [['Linux'], 'computer'],
  [['CrOS'], 'computer'],
] as const;

/** @example deviceName('Mozilla/5.0 (X11; Linux x86_64) ... Firefox/140') // => "computer, Firefox" */
function deviceName(userAgent: string, { text }: Pick<NotificationWords, 'text'>): string {
  const kind = kinds.find(([marks]) => marks.every((mark) => userAgent.includes(mark)))?.[1] ?? 'device';
  const kindText = text(`page-notifications.kind.${kind}`);
  const browser = /(Firefox|Edg|OPR|Chrome|Safari)\//.exec(userAgent)?.[1] ?? '';
  const names: Record<string, string> = { Edg: 'Edge', OPR: 'Opera' };
  if (browser === '') return kindText;
  return text('page-notifications.kind.with-browser', { kindText, browserName: names[browser] ?? browser });
}
