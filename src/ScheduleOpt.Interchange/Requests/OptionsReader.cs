using NodaTime;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Time;
using ScheduleOpt.Scheduling;
using ScheduleOpt.Scheduling.Households;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads the <c>options</c> of a request.</summary>
internal static class OptionsReader
{
    /// <summary>The longest schedule. [days]</summary>
    public const int MostDays = 31;

    private static readonly (string, ShortfallOrder)[] Orders =
        [("inTimeOrder", ShortfallOrder.InTimeOrder), ("leastTotal", ShortfallOrder.LeastTotal)];

    private static readonly (string, DistanceUnit)[] Units = [("km", DistanceUnit.Kilometre), ("mi", DistanceUnit.Mile)];

    /// <summary>Opens the options of a schedule.</summary>
    public static JsonMembers? OpenForSchedule(JsonField? field) => field?.Members(
        "gridMinutes", "horizonDays", "targetStateOfCharge", "tripConfidence", "shortfallOrder", "usedSoFarKwh", "demandSoFarKw", "unit", "running",
        "finishMarginMinutes", "noCharging", "currentLimits", "warmUp", "batteryCare", "previous", "explain", "chargingProfile");

    /// <summary>Reads the options of a schedule; what is not given, or faulty, has its default.</summary>
    /// <param name="maybe">The options, opened.</param>
    /// <param name="extendedLimit">The least extended limit of the cars.</param>
    /// <param name="running">The running rules, read already: the cars need them.</param>
    public static ScheduleOptions ForSchedule(JsonMembers? maybe, StateOfCharge extendedLimit, RunningRules running)
    {
        var defaults = new ScheduleOptions();
        if (maybe is not { } options)
        {
            return defaults;
        }

        return new ScheduleOptions
        {
            GridStep = GridStep(options, defaults.GridStep),
            HorizonDays = (int)options.Number("horizonDays", new(1, MostDays, "days") { Whole = true }, defaults.HorizonDays),
            Target = TripReader.Target(options.Optional("targetStateOfCharge"), extendedLimit),
            TripConfidence = Confidence(options, defaults.TripConfidence),
            ShortfallOrder = options.Word("shortfallOrder", Orders, defaults.ShortfallOrder),
            UsedSoFar = Energy.FromKilowattHours(options.Number("usedSoFarKwh", new(0, 100_000, "kWh"), 0)),
            Unit = options.Word("unit", Units, defaults.Unit),
            Running = running,
            FinishMargin = Duration.FromMinutes((long)options.Number("finishMarginMinutes", new(0, 240, "min") { Whole = true }, 0)),
            NoCharging = DailyHoursReader.NoCharging(options.Optional("noCharging")),
            CurrentLimits = DailyHoursReader.CurrentLimits(options.Optional("currentLimits")),
            WarmUp = ComfortReader.WarmUp(options.Optional("warmUp")),
            Ageing = ComfortReader.Ageing(options.Optional("batteryCare")),
            Explain = options.Optional("explain")?.Flag() ?? defaults.Explain,
        };
    }

    /// <summary>Reads the options of a comparison; what is not given, or faulty, has its default.</summary>
    public static ScheduleOptions ForComparison(JsonField? field)
    {
        var defaults = new ScheduleOptions();
        return field?.Members("gridMinutes", "tripConfidence", "shortfallOrder", "unit", "breakEvens", "uncertainty", "winters") is not { } options
            ? defaults
            : new ScheduleOptions
            {
                GridStep = GridStep(options, defaults.GridStep),
                TripConfidence = Confidence(options, defaults.TripConfidence),
                ShortfallOrder = options.Word("shortfallOrder", Orders, defaults.ShortfallOrder),
                Unit = options.Word("unit", Units, defaults.Unit),
                BreakEvens = options.Optional("breakEvens")?.Flag() ?? false,
                Uncertainty = options.Optional("uncertainty")?.Flag() ?? false,
                Winters = options.Optional("winters")?.Flag(),
            };
    }

    private static double Confidence(JsonMembers options, double otherwise) =>
        options.Number("tripConfidence", new(0.5, 0.999), otherwise);

    private static Duration GridStep(JsonMembers options, Duration otherwise)
    {
        if (options.Optional("gridMinutes") is not { } field)
        {
            return otherwise;
        }

        if (field.Element.ValueKind == System.Text.Json.JsonValueKind.Number
            && field.Element.TryGetInt32(out var minutes)
            && IntervalGrid.StepsInMinutes.Contains(minutes))
        {
            return Duration.FromMinutes(minutes);
        }

        field.Fault($"Must be one of {string.Join(", ", IntervalGrid.StepsInMinutes)} min.");
        return otherwise;
    }
}
