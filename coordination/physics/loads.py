"""What equipment draws and what the way to it costs in voltage.

Leaves who supplies which share of the current to the network.
"""

from __future__ import annotations

from coordination.physics.guards import require_not_negative, require_positive, require_within


def equipment_current(power: float, efficiency: float, voltage: float) -> float:
    """Current of equipment that delivers a constant power, at its lowest voltage.

    P / (eta U)

    power      -- delivered P [W]
    efficiency -- delivered over drawn, eta [1]
    voltage    -- lowest at its terminals U [V]
    gives      -- design current [A]
    Raises OutOfRange if power is negative, voltage not positive, efficiency outside 0 ... 1.
    Source: conservation of energy.

    >>> round(equipment_current(3000.0, 0.9, 22.0))  # hand calculation: 3000 / 19.8
    152
    """
    require_not_negative(power=power)
    require_positive(voltage=voltage, efficiency=efficiency)
    require_within(0.0, 1.0, efficiency=efficiency)
    return power / (efficiency * voltage)


def converter_input_current(
    output_current: float, output_voltage: float, efficiency: float, input_voltage: float
) -> float:
    """Current that a DC-DC converter draws at its input for what it gives at its output.

    I_2 U_2 / (eta U_1)

    output_current -- I_2 [A]
    output_voltage -- U_2 [V]
    efficiency     -- given over drawn, eta [1]
    input_voltage  -- lowest at its input U_1 [V]
    gives          -- input current [A]
    Raises OutOfRange if a value is out of range, efficiency outside 0 ... 1.
    Source: conservation of energy.

    >>> round(converter_input_current(40.0, 28.4, 0.92, 25.0), 1)  # hand: 1136 / 23
    49.4
    """
    require_not_negative(output_current=output_current, output_voltage=output_voltage)
    return equipment_current(output_current * output_voltage, efficiency, input_voltage)


def voltage_drop(current: float, resistance: float) -> float:
    """Voltage lost on the way there and back.

    I R

    current    -- I [A]
    resistance -- of the loop R [ohm]
    gives      -- voltage drop [V]
    Raises OutOfRange if a value is negative.
    Source: Ohm's law.

    >>> round(voltage_drop(10.0, 0.204), 2)      # 10 AWG, two wires of 100 ft, 10 A: 2.04 V
    2.04
    """
    require_not_negative(current=current, resistance=resistance)
    return current * resistance


def drop_share(drop: float, nominal_voltage: float) -> float:
    """Voltage drop as a share of the nominal voltage.

    dU / U_n

    drop            -- voltage drop dU [V]
    nominal_voltage -- U_n [V]
    gives           -- share [1]
    Raises OutOfRange if drop is negative or nominal_voltage not positive.
    Source: definition.

    >>> round(drop_share(1.2, 12.0), 6)          # hand calculation: 10 % of 12 V
    0.1
    """
    require_not_negative(drop=drop)
    require_positive(nominal_voltage=nominal_voltage)
    return drop / nominal_voltage


def drop_area(current: float, loop_length: float, drop: float, resistivity: float) -> float:
    """Area at which a loop loses a given voltage: what a voltage-drop table tells.

    rho I l / dU

    current     -- I [A]
    loop_length -- there and back l [m]
    drop        -- allowed voltage drop dU [V]
    resistivity -- of the metal at its temperature rho [ohm*m]
    gives       -- least cross-section [m**2]
    Raises OutOfRange if a value is out of range.
    Source: Ohm's law.

    >>> round(drop_area(1.6, 22.0, 0.385, 0.0164e-6) * 1e6, 2)  # 1.6 A, 22 m, 1.5 mm²: 0.38 V
    1.5
    """
    require_not_negative(current=current, loop_length=loop_length)
    require_positive(drop=drop, resistivity=resistivity)
    return resistivity * current * loop_length / drop


def joint_heat(current: float, resistance: float) -> float:
    """Heat that a joint or a contact gives off.

    I² R

    current    -- I [A]
    resistance -- of the joint R [ohm]
    gives      -- power [W]
    Raises OutOfRange if a value is negative.
    Source: conservation of energy.

    >>> round(joint_heat(200.0, 0.1e-3), 2)      # hand calculation: 0.1 mΩ at 200 A is 4 W
    4.0
    """
    require_not_negative(current=current, resistance=resistance)
    return current**2 * resistance
