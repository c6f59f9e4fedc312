/**
 * web/worker/push.ts: what the service worker does with messages that are pushed to it, and with taps on them.
 *
 * Takes:  the worker it listens for.
 * Gives:  listeners for `push` and `notificationclick`, once delivery to devices is set up.
 */

/** Called once, while the worker starts: listeners may only be added then. */
export function listenForPush(_worker: ServiceWorkerGlobalScope): void {}
