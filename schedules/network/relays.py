"""Which contacts signals operate, and which signals coils set: the logic beside the network, in bits."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from schedules.network.netlist import Netlist


class Relays:
    """Contacts and coils of a netlist; what was asked before is remembered."""

    def __init__(self, netlist: Netlist) -> None:
        self.delayed = tuple(switch for switch in netlist.switches.values() if switch.delay_s)
        self.delayed_bits = sum(switch.bit for switch in self.delayed)
        self._switches = [
            (switch.bit, switch.needs, switch.either, switch.bars) for switch in netlist.switches.values()
        ]
        self._windings = tuple(netlist.windings.values())
        self._operated: dict[int, int] = {}
        self._driven: dict[int, int] = {}

    def operated(self, signals: int) -> int:
        """The contacts whose condition holds while these signals are set."""
        mask = self._operated.get(signals)
        if mask is None:
            mask = 0
            for bit, needs, either, bars in self._switches:
                if signals & needs == needs and (not either or signals & either) and not signals & bars:
                    mask |= bit
            self._operated[signals] = mask
        return mask

    def driven(self, coils: int) -> int:
        """The signals that these coils set."""
        mask = self._driven.get(coils)
        if mask is None:
            mask = 0
            for winding in self._windings:
                mask |= winding.signal if winding.bit & coils else 0
            self._driven[coils] = mask
        return mask
