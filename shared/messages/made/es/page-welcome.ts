// Made from ../../es/page-welcome.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWelcomeParams } from '../params/page-welcome.ts';

export const pageWelcomeTexts: PageTexts<PageWelcomeParams> = {
  "page-welcome.title": "Bienvenida",
  "page-welcome.none": "Todavía no se vigila ninguna pila.",
  "page-welcome.none.hint": "La primera la arma un encargado o un propietario; entonces aparece aquí.",
  "page-welcome.practise-meanwhile": ["Mientras tanto, ",["<","link","practica con una pila simulada"],"."],
  "page-welcome.lay-first": "Todavía no se vigila ninguna pila. Arma la primera.",
  "page-welcome.lead": "Branhearth escucha las sondas de tus pilas de salvado y de tierra, dice con palabras sencillas cómo está cada pila y qué hacer después, y lleva el registro de cada lote.",
  "page-welcome.demo": ["Detén el programa, ejecuta ",["<","command","npm run demo"]," en su carpeta, y esta página muestra una finca inventada con cuatro pilas, en tiempo acelerado y en una carpeta de prueba."],
  "page-welcome.publish": ["Una sonda publica por MQTT en ",["<","topic",[["topicText"]]],". Para probarlo sin sonda, ejecuta esto en la carpeta de Branhearth",["isOnlyHere",{"true":"","other":", aquí o en otra máquina"},0],":"],
  "page-welcome.copy": "Copiar",
  "page-welcome.copied": "Copiado",
  "page-welcome.broker": ["El broker está ",["stateText"],": ",["detailText"]],
  "page-welcome.have": "¿Qué tienes?",
  "page-welcome.have.thermometer": "Un termómetro",
  "page-welcome.have.sensor": "Un sensor que ya envía",
  "page-welcome.have.parts": "Piezas para construir una sonda",
  "page-welcome.have.nothing": "Todavía nada: quiero ver cómo es",
  "page-welcome.thermometer": "Mételo en medio de la pila, espera a que se quede quieto y di qué marca.",
  "page-welcome.parts": [["<","link","Cómo construir una sonda"],": qué comprar, cómo cablearla, y una configuración lista para cargar. En cuanto envíe, aparece aquí."],
  "page-welcome.nothing": "Una pila simulada en tus manos: lleva unos minutos y no necesita sonda.",
  "page-welcome.nothing.do": "Practicar con una pila simulada",
  "page-welcome.sensor.where": "Adónde envía",
  "page-welcome.sensor.pile": "La pila",
};
