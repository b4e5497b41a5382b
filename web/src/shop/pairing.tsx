import { useEffect, useState } from "preact/hooks";
import { ApiError, api } from "../api/client";
import type { Devices, Pairing, Shop } from "../api/types";
import { Button, EmptyFrame, ErrorLine } from "../look/parts";
import { clock, dayWords } from "../look/words";

/** The server's QR drawing as an image: no markup of it enters the page. */
function Qr({ svg, says }: { svg: string; says: string }) {
  const [url, setUrl] = useState("");
  useEffect(() => {
    const made = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
    setUrl(made);
    return () => URL.revokeObjectURL(made);
  }, [svg]);
  return url === "" ? null : <img class="qr" src={url} alt={says} width={220} height={220} />;
}

function Code({ pairing, onOver }: { pairing: Pairing; onOver: () => void }) {
  useEffect(() => {
    const left = Date.parse(pairing.until) - Date.now();
    const timer = setTimeout(onOver, Math.max(0, left));
    return () => clearTimeout(timer);
  }, [pairing.until]);
  return (
    <div class="pairing">
      <Qr svg={pairing.qr_svg} says={`Code that leads a camera to ${pairing.url}`} />
      <div>
        <p class="caption">On the tablet, by its camera or by hand</p>
        <p class="code" aria-label={`Code ${pairing.code.split("").join(" ")}`}>
          {pairing.code}
        </p>
        <p>{`Good once, until ${clock(new Date(pairing.until), false)}.`}</p>
        <ol class="steps">
          <li>
            First visit only: on the tablet open <b>{pairing.trust_url}</b> and follow it, so that it trusts this
            shop's own certificate.
          </li>
          <li>
            Open <b>{pairing.url}</b>, by the camera or by typing it.
          </li>
          <li>Give the tablet a name and press Pair.</li>
        </ol>
      </div>
    </div>
  );
}

function DeviceList({ devices, onTakeOut }: { devices: Devices["devices"]; onTakeOut: (id: string) => void }) {
  return (
    <ul class="lines">
      {devices.map((device) => (
        <li key={device.id}>
          <div class="line">
            <b>{device.name}</b>
            <span>
              {device.here
                ? "this device"
                : `seen ${dayWords(device.seen)}, ${clock(new Date(device.seen), false)}`}
            </span>
            <span class="caption">{device.revoked ? "taken out" : `paired ${dayWords(device.paired)}`}</span>
            {device.revoked ? (
              <span />
            ) : (
              <Button red label={`Take out ${device.name}`} onPress={() => onTakeOut(device.id)}>
                Take out
              </Button>
            )}
          </div>
        </li>
      ))}
    </ul>
  );
}

export function DevicesAndPairing({ shop }: { shop: Shop }) {
  const [devices, setDevices] = useState<Devices["devices"]>([]);
  const [pairing, setPairing] = useState<Pairing | null>(null);
  const [trouble, setTrouble] = useState<ApiError | null>(null);
  const tell = (error: unknown) => {
    if (!(error instanceof ApiError)) throw error;
    setTrouble(error);
  };
  const ask = () => void api.devices().then((answer) => setDevices(answer.devices), tell);
  useEffect(ask, []);
  const pair = () =>
    void api.pairing().then((answer) => {
      setTrouble(null);
      setPairing(answer);
    }, tell);
  const takeOut = (id: string) => void api.dropDevice(id).then((answer) => setDevices(answer.devices), tell);
  return (
    <section aria-labelledby="devices-head">
      <h2 id="devices-head">Devices</h2>
      <p>
        {shop.opened ? (
          `Open to the shop's network${shop.address ? ` at ${shop.address}` : ""}. Every device is let in once, with a code, and can be taken out here.`
        ) : (
          <>
            This shop answers only on its own computer. To let a tablet in, start it as{" "}
            <b class="typed">fallaway serve --open-to ADDRESS</b>, with the address it shall answer at.
          </>
        )}
      </p>
      {trouble && (
        <ErrorLine strong={trouble.status === 0 ? "The link is down." : "That did not work."}>
          {trouble.status === 0 ? "" : trouble.message}
        </ErrorLine>
      )}
      {devices.length === 0 ? (
        shop.opened && <EmptyFrame strong="No device is paired.">A tablet takes a minute.</EmptyFrame>
      ) : (
        <DeviceList devices={devices} onTakeOut={takeOut} />
      )}
      {pairing ? (
        <Code
          pairing={pairing}
          onOver={() => {
            setPairing(null);
            ask();
          }}
        />
      ) : (
        shop.opened && <Button onPress={pair}>Pair a device</Button>
      )}
    </section>
  );
}
