// Made from ../../en/page-outbox.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageOutboxParams } from '../params/page-outbox.ts';

export const pageOutboxTexts: PageTexts<PageOutboxParams> = {
  "page-outbox.own": [["entryCount",{"one":[["#"]," entry waits"],"other":[["#"]," entries wait"]},1]," on this device. ",["<","send","Send now"]],
  "page-outbox.of": [["entryCount",{"one":[["#"]," entry by ",["personName"]," waits"],"other":[["#"]," entries by ",["personName"]," wait"]},1]," on this device until ",["personName"]," signs in here."],
  "page-outbox.nobodys": [["entryCount",{"one":[["#"]," entry written here while nobody was signed in waits for somebody to say whose it is."],"other":[["#"]," entries written here while nobody was signed in wait for somebody to say whose they are."]},1]],
  "page-outbox.see": [["entryCount",{"one":"See it","other":"See them"},1]],
  "page-outbox.refused": [["entryCount",{"one":[["#"]," entry was"],"other":[["#"]," entries were"]},1]," not taken"],
};
