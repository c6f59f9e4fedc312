// Made from ../../en/page-welcome.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWelcomeParams } from '../params/page-welcome.ts';

export const pageWelcomeTexts: PageTexts<PageWelcomeParams> = {
  "page-welcome.title": "Welcome",
  "page-welcome.none": "No pile is watched yet.",
  "page-welcome.none.hint": "A keeper or an owner lays the first; it then stands here.",
  "page-welcome.practise-meanwhile": [["<","link","Practise on a simulated pile"]," meanwhile."],
  "page-welcome.lay-first": "No pile is watched yet. Lay the first.",
  "page-welcome.lead": "Branhearth listens to the probes in your bran and soil piles, says in plain words how each pile is and what to do next, and keeps the record of each batch.",
  "page-welcome.step.name": "Name the place and the pile",
  "page-welcome.step.probe": "Let a probe talk",
  "page-welcome.step.claim": "Claim it for the pile",
  "page-welcome.only-looking": "Only looking?",
  "page-welcome.practise": [["<","link","Practise on a simulated pile"],", here and now: it takes a few minutes and no probe."],
  "page-welcome.demo": ["Stop the program, run ",["<","command","npm run demo"]," in its folder, and this page shows an invented farm with four piles, in fast time and on a scratch folder."],
  "page-welcome.publish": ["A probe publishes over MQTT to ",["<","topic",[["topicText"]]],". To try it without one, run this in the folder of Branhearth",["isOnlyHere",{"true":"","other":", here or on another machine"},0],":"],
  "page-welcome.copy": "Copy",
  "page-welcome.copied": "Copied",
  "page-welcome.broker": ["The broker is ",["stateText"],": ",["detailText"]],
  "page-welcome.no-probe": "No probe has talked yet. The moment one does, it stands here.",
  "page-welcome.talks": [["<","name",[["probeText"]]],["isHot",{"true":[" says ",["tempText"]],"other":""},0],["isHeard",{"true":[", ",["ageText"]],"other":""},0]],
  "page-welcome.more": ["And ",["moreCount",{"other":[["#"]]},1]," more."],
  "page-welcome.then": ["Say which one is in the core as you lay the pile, or ",["<","link","say where each probe sits"]," later."],
};
