// The number pad: only the keys that make sense in the unit picked, Next under the thumb, undo above it.

import { Key } from "../look/parts";
import { digitRows, lastRow } from "./pad_keys";
import "./pad.css";

interface Props {
  dimension: string;
  unit: string;
  next: string; // "Next string"
  onType: (text: string) => void;
  onRub: () => void;
  onNext: () => void;
  onUndo: () => void;
  onSame?: () => void; // on a phone the pad has this key too
  undoSays: string; // "" when there is nothing to take back
}

export function NumberPad({ dimension, unit, next, onType, onRub, onNext, onUndo, onSame, undoSays }: Props) {
  const tail = lastRow(dimension, unit);
  const last = `last-${tail.length + 1}`;
  return (
    <div class="pad" role="group" aria-label="Number pad">
      {digitRows.flat().map((digit) => (
        <Key key={digit} says={digit} onPress={() => onType(digit)} />
      ))}
      {tail.map((key) => (
        <Key
          key={key.press}
          says={key.says}
          label={key.label ?? key.says}
          onPress={() => onType(key.press)}
          class={last}
        />
      ))}
      <Key says={<RubOut />} label="rub out" onPress={onRub} class={`rub ${last}`} />
      <Key
        says="Undo"
        word
        class="undo"
        onPress={onUndo}
        disabled={undoSays === ""}
        label={undoSays ? `Undo ${undoSays}` : "Nothing to undo"}
      />
      {onSame && <Key says="Same for all" word class="same" onPress={onSame} />}
      <Key says={next} go class="next" onPress={onNext} />
    </div>
  );
}

const RubOut = () => (
  <svg width="30" height="22" viewBox="0 0 30 22" aria-hidden="true">
    <path d="M10 2H28V20H10L1 11Z M14 7l8 8m0-8l-8 8" fill="none" stroke="currentColor" stroke-width="2" />
  </svg>
);
