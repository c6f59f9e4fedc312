// Made from ../../en/page-reach.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageReachParams {
  'page-reach.title': NoParams;
  'page-reach.now': { readonly arePagesIn: boolean; readonly areProbesIn: boolean };
  'page-reach.lead': NoParams;
  'page-reach.before': NoParams;
  'page-reach.before.network': NoParams;
  'page-reach.before.plain': NoParams;
  'page-reach.before.router': NoParams;
  'page-reach.before.owner': NoParams;
  'page-reach.before.alarm': NoParams;
  'page-reach.what': NoParams;
  'page-reach.what.both': NoParams;
  'page-reach.what.probes': NoParams;
  'page-reach.what.phones': NoParams;
  'page-reach.how': NoParams;
  'page-reach.how.shell': NoParams;
  'page-reach.how.powershell': NoParams;
  'page-reach.how.service': NoParams;
  'page-reach.do': NoParams;
  'page-reach.do.shell': NoParams;
  'page-reach.do.powershell': NoParams;
  'page-reach.do.service': NoParams;
  'page-reach.do.copy': NoParams;
  'page-reach.after': NoParams;
  'page-reach.after.probes': { readonly hostText: string; readonly link: Tag; readonly mono: Tag; readonly portText: string };
  'page-reach.after.phones': { readonly mono: Tag; readonly urlText: string };
  'page-reach.after.code': NoParams;
  'page-reach.after.others': { readonly addressesText: string };
  'page-reach.after.none': NoParams;
  'page-reach.after.firewall': { readonly portsText: string };
  'page-reach.after.first': { readonly link: Tag };
}
