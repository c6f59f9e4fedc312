// Made from ../../ja/page-welcome.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWelcomeParams } from '../params/page-welcome.ts';

export const pageWelcomeTexts: PageTexts<PageWelcomeParams> = {
  "page-welcome.title": "ようこそ",
  "page-welcome.none": "まだ見張っている山はありません。",
  "page-welcome.none.hint": "管理者か所有者が最初の山を仕込むと、ここに現れます。",
  "page-welcome.practise-meanwhile": ["その間、",["<","link","シミュレーションの山で練習"],"してください。"],
  "page-welcome.lay-first": "まだ見張っている山はありません。最初の山を仕込んでください。",
  "page-welcome.lead": "Branhearthは、ぬかや土の山に差したセンサーの値を聞き、それぞれの山がどうなっていて次に何をすればよいかを分かりやすい言葉で伝え、仕込みごとの記録を残します。",
  "page-welcome.demo": ["プログラムを止め、そのフォルダーで",["<","command","npm run demo"],"を実行すると、このページに四つの山のある架空の農場が、早送りの時間で、試し用のフォルダーに現れます。"],
  "page-welcome.publish": ["センサーはMQTTで",["<","topic",[["topicText"]]],"に値を送ります。センサーなしで試すには、",["isOnlyHere",{"true":"","other":"ここか別の機械で、"},0],"Branhearthのフォルダーでこれを実行してください："],
  "page-welcome.copy": "コピー",
  "page-welcome.copied": "コピーしました",
  "page-welcome.broker": ["ブローカーは",["stateText"],"：",["detailText"]],
  "page-welcome.have": "何がありますか？",
  "page-welcome.have.thermometer": "温度計",
  "page-welcome.have.sensor": "もう値を送っているセンサー",
  "page-welcome.have.parts": "自分で作る部品",
  "page-welcome.have.nothing": "まだ何もないので見せてほしい",
  "page-welcome.thermometer": "山の真ん中に差し、止まるまで待ち、示す値を入れてください。",
  "page-welcome.parts": [["<","link","センサーの作り方"],"：何を買い、どう配線するか、そしてすぐ入れられる設定。値を送ると、ここに現れます。"],
  "page-welcome.nothing": "シミュレーションの山を手に：数分ででき、センサーは要りません。",
  "page-welcome.nothing.do": "シミュレーションの山で練習する",
  "page-welcome.sensor.where": "送り先",
  "page-welcome.sensor.pile": "山",
};
