/**
 * What the service worker does with messages that are pushed to it, and with taps on them. It never stays silent over a
 * push: browsers take the leave to push from those who do.
 */
import { pushTexts } from '../../../shared/messages/made/en/push.ts';

interface PushedMessage {
  readonly tag: string;
  readonly title: string;
  readonly body: string;
  /** 0-3, from notice to danger. */
  readonly severity: number;
  readonly path: string;
  /** The secret that acknowledges it, once. */
  readonly acknowledge?: string;
  /** What is said around acknowledging, in the reader's language. */
  readonly words?: Words;
}

interface Words {
  readonly acknowledge: string;
  readonly done: string;
  readonly notDone: string;
  readonly failed: string;
  readonly failedSays: string;
}

/** For what an older server sent. */
const english: Words = {
  acknowledge: pushTexts['push.acknowledge'],
  done: pushTexts['push.done'],
  notDone: pushTexts['push.not-done'],
  failed: pushTexts['push.failed'],
  failedSays: pushTexts['push.failed.says'],
};

/** Buttons and the second buzz are not in the types of every browser yet. */
type Shown = NotificationOptions & {
  readonly actions?: readonly { readonly action: string; readonly title: string }[];
  readonly renotify?: boolean;
};

const icon = '/icon-192.png';

/** Called once, while the worker starts: listeners may only be added then. */
export function listenForPush(worker: ServiceWorkerGlobalScope): void {
  worker.addEventListener('push', (event) => event.waitUntil(show(worker, messageOf(event.data))));
  worker.addEventListener('notificationclick', (event) => {
    event.notification.close();
    const message = event.notification.data as Pick<PushedMessage, 'path' | 'acknowledge' | 'words'>;
    const done =
      event.action === 'acknowledge' && message.acknowledge
        ? acknowledge(worker, message.acknowledge, message)
        : open(worker, message.path);
    event.waitUntil(done);
  });
}

function messageOf(data: PushMessageData | null): PushedMessage {
  const unreadable = {
    tag: 'branhearth',
    title: 'Branhearth',
    body: pushTexts['push.unreadable'],
    severity: 1,
    path: '/',
  };
  try {
    return { ...unreadable, ...(data?.json() as Partial<PushedMessage>) };
  } catch {
    return unreadable;
  }
}

function show(worker: ServiceWorkerGlobalScope, message: PushedMessage): Promise<void> {
  const { tag, title, body, severity, path, acknowledge: secret, words = english } = message;
  const options: Shown = {
    body,
    tag,
    icon,
    badge: icon,
    renotify: true,
    // What may hurt people stays until somebody has looked.
    requireInteraction: severity >= 2,
    data: { path, ...(secret === undefined ? {} : { acknowledge: secret, words }) },
    actions: secret === undefined ? [] : [{ action: 'acknowledge', title: words.acknowledge }],
  };
  return worker.registration.showNotification(title, options);
}

/** By the link's own address; where that fails a person must see it. */
async function acknowledge(
  worker: ServiceWorkerGlobalScope,
  secret: string,
  { path, words = english }: Pick<PushedMessage, 'path' | 'words'>,
): Promise<void> {
  try {
    const answer = await fetch(`/acknowledge/${encodeURIComponent(secret)}`, {
      method: 'POST',
      headers: { accept: 'application/json' },
    });
    const { says } = (await answer.json()) as { says: string };
    await worker.registration.showNotification(answer.ok ? words.done : words.notDone, {
      body: says,
      tag: 'acknowledged',
      icon,
      silent: true,
      data: { path },
    });
  } catch {
    await worker.registration.showNotification(words.failed, {
      body: words.failedSays,
      tag: 'acknowledged',
      icon,
      data: { path },
    });
  }
}

/** A page that is open already comes to the front. */
async function open(worker: ServiceWorkerGlobalScope, path: string): Promise<void> {
  const pages = await worker.clients.matchAll({ type: 'window', includeUncontrolled: true });
  const [page] = pages;
  if (page === undefined) {
    await worker.clients.openWindow(path);
    return;
  }
  await page.focus();
  await page.navigate(path).catch(() => worker.clients.openWindow(path));
}
