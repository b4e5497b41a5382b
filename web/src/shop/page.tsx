import { useEffect, useState } from "preact/hooks";
import { api } from "../api/client";
import type { Shop } from "../api/types";
import { Button, Field, TitleBlock } from "../look/parts";
import { dayWords } from "../look/words";
import { loadShop, shop, shopTrouble } from "../shop_state";
import { Trouble } from "../visits/trouble";
import { DeviceSettings } from "./device";
import { DevicesAndPairing } from "./pairing";
import { People } from "./people";
import { Limits, Rates } from "./rates";
import { OtherReasons, useSaving } from "./save";
import "./shop.css";
import { Tools } from "./tools";

function ShopName({ now }: { now: Shop }) {
  const [name, setName] = useState(now.name);
  useEffect(() => setName(now.name), [now.name]);
  const saving = useSaving();
  const changed = name.trim() !== "" && name.trim() !== now.name;
  return (
    <section aria-labelledby="name-head">
      <h2 id="name-head">Name</h2>
      <OtherReasons saving={saving} keys={["name"]} />
      <div class="name-row">
        <Field
          label="The shop's name, as reports print it"
          value={name}
          onInput={setName}
          refused={saving.refused("name")}
        />
        {changed && (
          <Button go onPress={() => void saving.send(() => api.nameShop(name.trim()))}>
            Store
          </Button>
        )}
      </div>
    </section>
  );
}

function Backup({ now }: { now: Shop }) {
  return (
    <section aria-labelledby="backup-head">
      <h2 id="backup-head">Backup</h2>
      <p>
        Everything of this shop stands in one folder on its computer. On that computer,{" "}
        <b class="typed">fallaway backup</b> writes a copy while work goes on and{" "}
        <b class="typed">fallaway restore</b> brings it back; keep a copy somewhere else. Each visit can also be
        kept by itself, as a bench file.
      </p>
      <p class="caption">
        {`Fallaway ${now.version}. `}
        <a class="button" href="/licences.txt" target="_blank">
          Licences of what it is made with
        </a>
      </p>
    </section>
  );
}

export default function ShopPage() {
  const now = shop.value;
  useEffect(() => {
    document.title = "Shop, Fallaway";
    void loadShop();
  }, []);
  const cells = [
    { says: now?.demo ? "Demo shop, all invented" : "Shop", value: now?.name || "Unnamed shop", who: true },
    ...(now ? [{ says: "Today", value: dayWords(now.today) }] : []),
    { says: "Back to", value: "Visits", href: "/" },
  ];
  return (
    <div class="sheet-page shop-page">
      <TitleBlock cells={cells} />
      {shopTrouble.value && <Trouble error={shopTrouble.value} again={() => void loadShop()} />}
      <div class="columns">
        <div>
          <DeviceSettings shop={now} />
          {now && <DevicesAndPairing shop={now} />}
          {now && <ShopName now={now} />}
          {now && <People shop={now} />}
        </div>
        <div>
          {now && <Tools shop={now} />}
          {now && <Rates shop={now} />}
          {now && <Limits shop={now} />}
          {now && <Backup now={now} />}
        </div>
      </div>
    </div>
  );
}
