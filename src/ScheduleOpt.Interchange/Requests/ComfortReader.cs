using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Scheduling;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads what a household wants for the car beside its energy: <c>warmUp</c> and <c>batteryCare</c>.</summary>
internal static class ComfortReader
{
    /// <summary>A warm-up without a limit of temperature runs below this (common practice, no source). [degC]</summary>
    public const double WarmUpBelowC = 5;

    private const double MostKwh = 20;

    /// <summary>Calendar ageing at 20 degC by chemistry, w1 of <see cref="AgeingPrice"/>, rounded: NREL BLAST-Lite (2025, BSD-3). [currency/(kWh h)]</summary>
    private static readonly (string, double)[] Chemistries = [("lfp", 0.0002), ("nmc", 0.0006), ("nca", 0.0009)];

    /// <summary>Reads the warm-up before departures; none: no warm-up.</summary>
    public static WarmUp? WarmUp(JsonField? field)
    {
        if (field?.Members("minutes", "energyKwh", "sparedKwh", "belowC", "belowF") is not { } warm)
        {
            return null;
        }

        var minutes = warm.Number("minutes", new(5, 120, "min") { Whole = true });
        var energy = warm.Number("energyKwh", new(0, MostKwh, "kWh") { LowExcluded = true });
        var spared = warm.Optional("sparedKwh")?.Number(new(0, MostKwh, "kWh")) ?? 0;
        var below = Below(warm);
        if (minutes is not { } length || energy is not { } wall)
        {
            return null;
        }

        if (spared > wall)
        {
            warm.Faults.Add(warm.Pointer("sparedKwh"), $"Must not be above energyKwh, which is {Plain.Number(wall)} kWh.", Plain.Number(spared));
        }

        return new(Duration.FromMinutes((long)length), wall, spared, below);
    }

    /// <summary>Reads the ageing price; what is not given, or faulty, has its default.</summary>
    public static AgeingPrice Ageing(JsonField? field)
    {
        var usual = AgeingPrice.Default;
        if (field?.Members("chemistry", "pricePerKwhHour") is not { } care || care.ExactlyOne("chemistry", "pricePerKwhHour") is not { } form)
        {
            return usual;
        }

        if (care.Has("chemistry"))
        {
            return form.Word(Chemistries) is { } price ? usual with { HighPerKwhHour = price } : usual;
        }

        // The weight above 90 % keeps its proportion, so that a price of 0 asks for no care at all.
        return form.Exact(new(0, 0.1, "per kWh and hour")) is { } given
            ? new((double)given, (double)given * usual.VeryHighPerKwhHour / usual.HighPerKwhHour)
            : usual;
    }

    private static double Below(JsonMembers warm)
    {
        var field = warm.AtMostOne("belowC", "belowF");
        var celsius = warm.Has("belowC")
            ? field?.Number(Limits.Celsius)
            : field?.Number(Limits.Fahrenheit) is { } f ? Temperature.FromFahrenheit(f).Celsius : null;
        return celsius ?? WarmUpBelowC;
    }
}
