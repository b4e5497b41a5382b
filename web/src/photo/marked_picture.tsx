import { useEffect, useRef, useState } from "preact/hooks";
import { Button } from "../look/parts";
import { markAt, moved, placeWords, withMark, without, type Mark } from "./marks";

interface MarkedPictureProps {
  url: string;
  what: string;
  marks: readonly Mark[];
  /** Left out: the marks are only shown. */
  onMarks?: (marks: Mark[]) => void;
}

/** A picture with numbered circles and their words below. A tap puts a mark; without a pointer one is put in the middle
 *  and moved by the arrow keys. */
export function MarkedPicture({ url, what, marks, onMarks }: MarkedPictureProps) {
  const [current, setCurrent] = useState(-1);
  const words = useRef<HTMLOListElement>(null);
  const grown = useRef(marks.length);
  useEffect(() => {
    // A new mark wants its words: the hand is sent there, by whichever way the mark was put.
    if (marks.length > grown.current) words.current?.querySelector<HTMLInputElement>("li:last-child input")?.focus();
    grown.current = marks.length;
  }, [marks.length]);
  const put = (mark: Mark): void => {
    onMarks?.([...marks, mark]);
    setCurrent(marks.length);
  };
  return (
    <figure class="photo-figure">
      <div class={`photo-frame ${onMarks ? "takes-marks" : ""}`}
           onClick={(event) => {
             if (onMarks && !(event.target as Element).closest("button"))
               put(markAt(event, event.currentTarget.getBoundingClientRect()));
           }}>
        <img src={url} alt={what === "" ? "photo without words" : what} />
        {marks.map((mark, nth) => (
          <Circle key={nth} mark={mark} nth={nth} current={nth === current}
                  {...(onMarks ? {
                    onPick: () => setCurrent(nth),
                    onMove: (next: Mark) => onMarks(withMark(marks, nth, next)),
                  } : {})} />
        ))}
      </div>
      {onMarks && <Button onPress={() => put({ x: 0.5, y: 0.5 })}>Put a mark in the middle</Button>}
      <ol class="photo-words" ref={words}>
        {marks.map((mark, nth) => onMarks
          ? <MarkWords key={nth} mark={mark} nth={nth} onWords={(says) => onMarks(withMark(marks, nth, { ...mark, says }))}
                       onOut={() => onMarks(without(marks, nth))} />
          : <li key={nth}><b>{nth + 1}</b> <span>{mark.says ?? placeWords(mark)}</span></li>)}
      </ol>
      {onMarks && <p class="caption">Tap the picture to mark a place. Arrow keys move a mark, with Shift further.</p>}
    </figure>
  );
}

function Circle({ mark, nth, current, onPick, onMove }: {
  mark: Mark; nth: number; current: boolean; onPick?: () => void; onMove?: (mark: Mark) => void;
}) {
  const place = { left: `${mark.x * 100}%`, top: `${mark.y * 100}%` };
  if (!onMove) return <span class="photo-mark" style={place} aria-hidden="true"><span>{nth + 1}</span></span>;
  return (
    <button type="button" class={`photo-mark ${current ? "current" : ""}`} style={place} onClick={onPick}
            aria-label={`Mark ${nth + 1}, ${placeWords(mark)}`}
            onKeyDown={(event) => {
              const next = moved(mark, event.key, event.shiftKey);
              if (!next) return;
              event.preventDefault();
              onMove(next);
            }}>
      <span>{nth + 1}</span>
    </button>
  );
}

function MarkWords({ mark, nth, onWords, onOut }: { mark: Mark; nth: number; onWords: (says: string) => void; onOut: () => void }) {
  return (
    <li class="field">
      <b>{nth + 1}</b>
      <div class="box">
        <input value={mark.says ?? ""} aria-label={`Words of mark ${nth + 1}`} autocomplete="off"
               onInput={(event) => onWords(event.currentTarget.value)} />
      </div>
      <Button onPress={onOut} label={`Take mark ${nth + 1} out`}>Out</Button>
    </li>
  );
}
