import type { ServiceChannel } from '../../../../shared/notification-services/services.ts';
import { appriseSender } from './apprise.ts';
import { matrixSender } from './matrix.ts';
import { ntfySender } from './ntfy.ts';
import { pushoverSender } from './pushover.ts';
import type { ServiceSender } from './sender.ts';
import { telegramSender } from './telegram.ts';

export const serviceSenders: Readonly<Record<ServiceChannel, ServiceSender>> = {
  ntfy: ntfySender,
  pushover: pushoverSender,
  telegram: telegramSender,
  matrix: matrixSender,
  apprise: appriseSender,
};
