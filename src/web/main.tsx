import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { themeNow, wear } from "./frame/theme.ts";
import { Room } from "./room.tsx";

wear(themeNow());

const place = document.getElementById("room");
if (place === null) throw new Error("broken promise: index.html has the place for the room");
createRoot(place).render(
  <StrictMode>
    <Room />
  </StrictMode>,
);
