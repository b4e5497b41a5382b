// The same figures as a table, for whoever does not see the drawing.

import type { Cell } from "../visit/figures";
import { describePlace } from "../visit/places";

export function NeckTable({ cells, title }: { cells: Cell[]; title: string }) {
  return (
    <div class="unseen">
      <table>
        <caption>{title}</caption>
        <thead>
          <tr>
            <th scope="col">Place</th>
            <th scope="col">Figure</th>
            <th scope="col">Uncertainty</th>
            <th scope="col">Limit</th>
            <th scope="col">State</th>
          </tr>
        </thead>
        <tbody>
          {cells.map((cell, index) => (
            <tr key={index}>
              <th scope="row">{describePlace(cell.at)}</th>
              <td>{cell.figure ? `${cell.figure} ${cell.unit}` : ""}</td>
              <td>{cell.u}</td>
              <td>{cell.limit}</td>
              <td>
                {cell.state === "blank"
                  ? "not looked at"
                  : [cell.state, cell.standing, cell.reason].filter((one) => one !== "").join(", ")}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
