import { useEffect, useState } from "preact/hooks";
import { keptVisits, type KeptLine } from "../kept_visit";

/** Where the list cannot be had: the way to the sheets kept on this device. */
export function KeptSheets() {
  const [lines, setLines] = useState<KeptLine[]>([]);
  useEffect(() => void keptVisits().then(setLines), []);
  if (lines.length === 0) return null;
  return (
    <section class="visits-list">
      <h2>Kept on this device</h2>
      <ul>
        {lines.map((line) => (
          <li key={line.id}>
            <a class="visit-row" href={`/visits/${line.id}`}>
              <b class="name">{line.title}</b>
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
