import type { ComponentChildren, JSX } from "preact";
import { useId } from "preact/hooks";
import "./parts.css";

// The few parts every page is put together from. They hold no state of their own.

export interface Cell {
  /** Small words above. */
  says: string;
  value: ComponentChildren;
  /** The instrument itself: larger, and the page's heading. */
  who?: boolean;
  href?: string;
}

/** The block at the head of a sheet. Cells that do not matter on a phone are left out by the page, not hidden here. */
export function TitleBlock({ cells, class: more = "" }: { cells: Cell[]; class?: string }) {
  return (
    <header class={`title-block ${more}`}>
      {cells.map((cell) => (
        <div key={cell.says} class={cell.who ? "who" : ""}>
          <span class="says">{cell.says}</span>
          {cell.who ? (
            <h1 class="value">{cell.value}</h1>
          ) : cell.href ? (
            <a class="value" href={cell.href}>
              {cell.value}
            </a>
          ) : (
            <span class="value">{cell.value}</span>
          )}
        </div>
      ))}
    </header>
  );
}

export interface ButtonProps {
  onPress: () => void;
  children: ComponentChildren;
  /** The one thing to do next on this page. */
  go?: boolean;
  red?: boolean;
  whole?: boolean;
  disabled?: boolean;
  pressed?: boolean;
  /** For a screen reader, where the words on it are too short. */
  label?: string;
  class?: string;
}

export function Button({
  onPress,
  children,
  go,
  red,
  whole,
  disabled,
  pressed,
  label,
  class: more = "",
}: ButtonProps) {
  const names = ["button", go && "go", red && "red", whole && "whole", more].filter(Boolean).join(" ");
  return (
    <button
      type="button"
      class={names}
      onClick={onPress}
      disabled={disabled}
      aria-pressed={pressed}
      aria-label={label}>
      {children}
    </button>
  );
}

/** A key of a pad. It never takes the focus from what is being typed. */
export function Key({
  says,
  onPress,
  label,
  go,
  word,
  disabled,
  class: more = "",
}: {
  says: ComponentChildren;
  onPress: () => void;
  label?: string;
  go?: boolean;
  word?: boolean;
  disabled?: boolean;
  class?: string;
}) {
  const names = ["key", go && "go", word && "word", more].filter(Boolean).join(" ");
  return (
    <button
      type="button"
      class={names}
      disabled={disabled}
      aria-label={label}
      onClick={onPress}
      onPointerDown={(event) => event.preventDefault()}>
      {says}
    </button>
  );
}

export interface FieldProps {
  label: string;
  value: string;
  onInput: (text: string) => void;
  /** Enter, or leaving the field after a change. */
  onDone?: () => void;
  hint?: string;
  /** Why what stands in it was refused; it is kept as typed. */
  refused?: string;
  unit?: string;
  lines?: boolean;
  type?: "text" | "date" | "search";
  inputMode?: JSX.HTMLAttributes<HTMLInputElement>["inputMode"];
  list?: string;
  placeholder?: string;
  autoFocus?: boolean;
  name?: string;
}

export function Field(props: FieldProps) {
  const id = useId();
  const told = [props.refused ? `${id}-why` : "", props.hint ? `${id}-hint` : ""].filter(Boolean).join(" ");
  const shared = {
    id,
    value: props.value,
    placeholder: props.placeholder,
    name: props.name,
    autoFocus: props.autoFocus,
    autocomplete: "off",
    spellcheck: props.lines ?? false,
    "aria-describedby": told === "" ? undefined : told,
    "aria-invalid": props.refused ? true : undefined,
    onBlur: props.onDone,
  };
  return (
    <div class="field">
      <label class="label" for={id}>
        {props.label}
      </label>
      <div class={`box ${props.refused ? "refused" : ""}`}>
        {props.lines ? (
          <textarea {...shared} onInput={(event) => props.onInput(event.currentTarget.value)} />
        ) : (
          <input
            {...shared}
            type={props.type ?? "text"}
            inputMode={props.inputMode}
            list={props.list}
            onInput={(event) => props.onInput(event.currentTarget.value)}
            onKeyDown={(event) => {
              if (event.key === "Enter") props.onDone?.();
            }}
          />
        )}
        {props.unit && <span class="unit">{props.unit}</span>}
      </div>
      {props.refused && (
        <p class="why" id={`${id}-why`} role="alert">
          {props.refused}
        </p>
      )}
      {props.hint && (
        <p class="hint" id={`${id}-hint`}>
          {props.hint}
        </p>
      )}
    </div>
  );
}

export interface Option<T extends string> {
  value: T;
  says?: ComponentChildren;
  hint?: string;
}

/** One of a few, side by side or (with `column`) one under the other. Arrow keys move, as in any group of this kind. */
export function Choice<T extends string>({
  label,
  options,
  value,
  onChoose,
  column,
  unseenLabel,
}: {
  label: string;
  options: Option<T>[];
  value: T | "";
  onChoose: (value: T) => void;
  column?: boolean;
  unseenLabel?: boolean;
}) {
  const name = useId();
  return (
    <fieldset class={`choice ${column ? "column" : ""}`}>
      <legend class={unseenLabel ? "unseen" : ""}>{label}</legend>
      <div class="options">
        {options.map((option) => (
          <label key={option.value}>
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === value}
              onChange={() => onChoose(option.value)}
            />
            <span class="option">
              <span>{option.says ?? option.value}</span>
              {option.hint && <small>{option.hint}</small>}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

export interface Cure {
  says: string;
  onPress: () => void;
}

interface LineProps {
  strong: string;
  children?: ComponentChildren;
  cures?: Cure[];
}

const told = (kind: string, role: "alert" | "status", { strong, children, cures = [] }: LineProps) => (
  <div class={kind} role={role}>
    <p class="text">
      <b>{strong}</b> {children}
    </p>
    {cures.length > 0 && (
      <div class="cures">
        {cures.map((cure) => (
          <Button key={cure.says} onPress={cure.onPress}>
            {cure.says}
          </Button>
        ))}
      </div>
    )}
  </div>
);

/** What is wrong, that the text is kept, and the likely cure. Read out at once. */
export const ErrorLine = (props: LineProps) => told("error-line", "alert", props);

/** Something to know that is nobody's error: a dead line, a choice to make. Read out when there is a pause. */
export const NoticeLine = (props: LineProps) => told("notice-line", "status", props);

/** Nothing here yet: what would fill it, how long that takes, and the one thing to do. */
export function EmptyFrame({
  strong,
  children,
  action,
}: {
  strong: string;
  children?: ComponentChildren;
  action?: Cure;
}) {
  return (
    <div class="empty-frame">
      <p class="text">
        <b>{strong}</b> {children}
      </p>
      {action && (
        <Button go onPress={action.onPress}>
          {action.says}
        </Button>
      )}
    </div>
  );
}

/** Minutes as a scale: a stroke each, longer at fives, what is used filled in. */
export function ScaleRule({ total, left, small }: { total: number; left: number; small?: boolean }) {
  const whole = Math.max(1, Math.round(total));
  const used = Math.min(whole, Math.max(0, whole - left));
  const width = 1000;
  const x = (minute: number) => (minute / whole) * width;
  const step = small && whole > 30 ? 5 : whole > 120 ? 5 : 1;
  const base = small ? 11 : 20;
  const strokes = Array.from({ length: Math.floor(whole / step) + 1 }, (_, index) => index * step);
  return (
    <svg
      class="scale-rule"
      viewBox={`0 0 ${width} ${base + 8}`}
      height={base + 8}
      preserveAspectRatio="none"
      role="img"
      aria-label={`${Math.round(used)} of ${whole} minutes used`}>
      {strokes.map((minute) => {
        const long = minute % (step * 5) === 0;
        return (
          <line
            key={minute}
            class={long ? "" : "fine"}
            x1={x(minute)}
            x2={x(minute)}
            y1={base}
            y2={base - (small ? (long ? 7 : 4) : long ? 10 : 5)}
          />
        );
      })}
      <line x1={0} x2={width} y1={base} y2={base} />
      <rect class="used" x={0} y={base} width={x(used)} height={4} />
      {!small && <line x1={x(used)} x2={x(used)} y1={1} y2={base + 8} />}
    </svg>
  );
}

/** Open corners with nothing inside: not looked at. */
export function Corners({ label = "not looked at" }: { label?: string }) {
  return (
    <svg class="corners" width="40" height="22" viewBox="0 0 40 22" role="img" aria-label={label}>
      <path d="M1 7V1h7M32 1h7v6M39 15v6h-7M8 21H1v-6" />
    </svg>
  );
}
