import { render } from "preact";
import { startOutbox } from "./api/outbox";
import { App } from "./app";
import "./look/tokens.css";
import "./look/type.css";
import "./look/base.css";
import "./look/print.css";
import { startOffline } from "./offline/start";
import { startRouting } from "./route";
import { applySettings } from "./settings";
import { loadShop } from "./shop_state";

applySettings();
startRouting();
startOutbox();
startOffline();
void loadShop();
const root = document.getElementById("page");
if (root) render(<App />, root);
