/**
 * What the embedded broker asks us about every connection and message. It never lets a message be acknowledged before
 * its commit, or be heard by anybody when its sender may not publish it.
 */
import type { AedesOptions } from 'aedes';
import type { SourceContext } from '../commit/inbound-source.ts';
import { authorizePublishWith } from './authorize-publish.ts';
import { authorizeSubscribeWith } from './authorize-subscribe.ts';
import { authenticateWith, preConnect } from './client-admission.ts';
import { type Hook, type HookParts, socketOf } from './hook-parts.ts';
import { createSlowListeners } from './slow-listeners.ts';

export function brokerHooks(parts: HookParts): AedesOptions {
  return {
    preConnect,
    authenticate: authenticateWith(parts),
    authorizePublish: authorizePublishWith(parts),
    authorizeSubscribe: authorizeSubscribeWith(parts),
    authorizeForward: passByTheSlow(parts.context),
  };
}

/** What one who listens does not fetch must not fill the memory of this process. */
function passByTheSlow({ log }: SourceContext): Hook<'authorizeForward'> {
  const slow = createSlowListeners();
  let hasWarned = false;
  return (client, packet) => {
    if (slow.mayHear(socketOf(client))) return packet;
    if (!hasWarned) log.warn({ client: client.id }, 'somebody listens slower than messages come; some pass by');
    hasWarned = true;
    return null;
  };
}
