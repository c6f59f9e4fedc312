/** Whether this device takes pushed messages, and subscribing it. */
import { isSubscribedWith, pushEnded } from '../../data/forget-this-device.ts';
import { addDevice } from './notifications-api.ts';

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
export async function subscribeThisDevice(pushKey: string): Promise<void> {
  if ((await Notification.requestPermission()) !== 'granted') {
    throw new Error(
      'Notifications were not allowed. Allow them for this page in the browser’s settings, then try again.',
    );
  }
  const worker = await navigator.serviceWorker.getRegistration();
  if (!worker) throw new Error('The page is not installed on this device yet. Reload it and try again.');
  const subscription = await subscribed(worker, pushKey);
  const { endpoint, keys } = subscription.toJSON();
  if (!endpoint || !keys?.p256dh || !keys.auth) throw new Error('This browser gave no address to push to.');
  await addDevice({ endpoint, keys: { p256dh: keys.p256dh, auth: keys.auth }, label: deviceName(navigator.userAgent) });
  pushEnded.set(null);
}

async function subscribed(worker: ServiceWorkerRegistration, pushKey: string): Promise<PushSubscription> {
  try {
    return await worker.pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: pushKey });
  } catch (error) {
    // A subscription with another server's key stands in the way.
    const old = await worker.pushManager.getSubscription();
    if (!old) throw new Error('The browser’s push service cannot be reached just now.', { cause: error });
    await old.unsubscribe();
    return worker.pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: pushKey });
  }
}

/** What a user agent holds, all of it, and the kind of device that says so. */
const kinds: readonly (readonly [words: readonly string[], kind: string])[] = [
  [['iPhone'], 'iPhone'],
  [['iPad'], 'iPad'],
  [['Android', 'Mobile'], 'Android phone'],
  [['Android'], 'Android tablet'],
  [['Macintosh'], 'Mac'],
  [['Windows'], 'Windows computer'],
  [['Linux'], 'computer'],
  [['CrOS'], 'computer'],
];

/** @example deviceName('Mozilla/5.0 (X11; Linux x86_64) ... Firefox/140') // => "computer, Firefox" */
function deviceName(userAgent: string): string {
  const kind = kinds.find(([words]) => words.every((word) => userAgent.includes(word)))?.[1] ?? 'device';
  const browser = /(Firefox|Edg|OPR|Chrome|Safari)\//.exec(userAgent)?.[1] ?? '';
  const names: Record<string, string> = { Edg: 'Edge', OPR: 'Opera' };
  return browser === '' ? kind : `${kind}, ${names[browser] ?? browser}`;
}
