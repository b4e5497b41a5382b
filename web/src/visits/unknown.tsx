import { Button, TitleBlock } from "../look/parts";
import { go } from "../route";

export default function UnknownPage({ path }: { path: string }) {
  return (
    <div class="narrow-page">
      <TitleBlock cells={[{ says: "Fallaway", value: "There is no such sheet", who: true }]} />
      <p style={{ margin: "1rem 0" }}>{`Nothing stands under ${path}.`}</p>
      <Button go onPress={() => go("/")}>
        All visits
      </Button>
    </div>
  );
}
