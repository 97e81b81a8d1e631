"""The pack `iec_low_voltage`: IEC 60364 for DC installations in premises, cabins and vehicles."""
