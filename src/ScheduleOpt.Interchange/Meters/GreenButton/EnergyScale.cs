namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>Turns a reading of whatever multiple into energy, exactly.</summary>
internal static class EnergyScale
{
    /// <summary>Energy of a value in Wh times a power of ten. [kWh]</summary>
    public static decimal KilowattHours(long value, int powerOfTen)
    {
        // 2^47 Wh times 10^12 still fits a decimal.
        decimal wattHours = value;
        for (var i = 0; i < Math.Abs(powerOfTen); i++)
        {
            wattHours = powerOfTen > 0 ? wattHours * 10 : wattHours / 10;
        }

        return wattHours / 1000;
    }

    /// <summary>Energy of a value in Wh times a power of ten, rounded to the nearest millionth of a kWh, a half away from zero; none where it is
    /// more than anyone meters in a day. [1e-6 kWh]</summary>
    public static long? MicroKilowattHours(long value, int powerOfTen) => Micro(value, powerOfTen, 1);

    /// <summary>The same for a power in W that lasted some seconds.</summary>
    public static long? MicroKilowattHours(long watts, int powerOfTen, int seconds) => Micro((Int128)watts * seconds, powerOfTen, 3600);

    private static long? Micro(Int128 value, int powerOfTen, int divisor)
    {
        // 1 Wh is 1,000 millionths of a kWh.
        var power = powerOfTen + 3;
        Int128 denominator = divisor;
        for (var i = 0; i < Math.Abs(power); i++)
        {
            if (power > 0)
            {
                value *= 10;
            }
            else
            {
                denominator *= 10;
            }
        }

        var half = denominator / 2;
        var rounded = (value + (value < 0 ? -half : half)) / denominator;
        return Int128.Abs(rounded) <= 1_000_000_000_000 ? (long)rounded : null;
    }
}
