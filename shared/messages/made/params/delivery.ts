// Made from ../../en/delivery.json by `npm run messages`; change that instead.
import type { NoParams, Part } from '../../param-types.ts';

export interface DeliveryParams {
  'delivery.quiet-hours': NoParams;
  'delivery.no-access': NoParams;
  'delivery.acknowledged-before': NoParams;
  'delivery.shelved-before': NoParams;
  'delivery.over-before': NoParams;
  'delivery.code-spent': NoParams;
  'delivery.no-channel': { readonly channel: 'email' | 'other' | 'push' | 'webhook' };
  'delivery.taken': NoParams;
  'delivery.device-removed': NoParams;
  'delivery.device-ended': { readonly saidPart: Part };
  'delivery.redirect': { readonly saidPart: Part };
  'delivery.address-unreadable': NoParams;
  'delivery.address-not-https': NoParams;
  'delivery.address-with-password': NoParams;
  'delivery.address-inner': { readonly addressText: string };
  'delivery.name-not-found': { readonly hostText: string };
  'delivery.no-answer': { readonly secondsCount: number };
  'delivery.service.removed': { readonly serviceName: string };
  'delivery.service.key': { readonly saidPart: Part; readonly serviceName: string };
  'delivery.service.not-found': { readonly saidPart: Part; readonly serviceName: string };
  'delivery.service.refused': { readonly saidPart: Part; readonly serviceName: string };
  'delivery.service.too-many': { readonly saidPart: Part; readonly serviceName: string };
  'delivery.service.trouble': { readonly saidPart: Part; readonly serviceName: string };
}
