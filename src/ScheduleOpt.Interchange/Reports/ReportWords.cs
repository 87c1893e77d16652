using System.Globalization;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.LifeCycle;
using ScheduleOpt.Comparison.Uncertainty;
using ScheduleOpt.Comparison.Waterfalls;
using ScheduleOpt.Comparison.Winters;
using ScheduleOpt.Comparison.Year;
using ScheduleOpt.Core.Homes.Panels;
using ScheduleOpt.Core.Weather;
using ScheduleOpt.Interchange.Answers;

namespace ScheduleOpt.Interchange.Reports;

/// <summary>Words and numbers as a report shows them.</summary>
internal static class ReportWords
{
    /// <summary>A part of a waterfall.</summary>
    public static string Of(WaterfallPart part) => part switch
    {
        WaterfallPart.HouseEnergy => "house energy",
        WaterfallPart.CarEnergy => "car energy",
        WaterfallPart.Losses => "losses",
        WaterfallPart.CustomerCharge => "customer charge",
        WaterfallPart.DemandCharge => "demand",
        WaterfallPart.OtherCharges => "other charges",
        WaterfallPart.AwayCharging => "away charging",
        WaterfallPart.EndCorrection => "end correction",
        _ => "install",
    };

    /// <summary>A behaviour.</summary>
    public static string OfBehaviour(string? name) => name switch
    {
        null => "public charging",
        "onArrival" => "on arrival",
        "fixedStart" => "fixed start",
        "byDeparture" => "by departure",
        "leastCostKnownAhead" => "least cost, known ahead",
        "leastCostByNight" => "least cost, night by night",
        _ => name,
    };

    /// <summary>A combination: set-up, the rate plan's name, behaviour.</summary>
    public static string Of(YearCell cell) => $"{cell.SetUp.Name}, {cell.RatePlan.Name}, {OfBehaviour(cell.Behaviour?.Name)}";

    /// <summary>Where a weather year comes from, without the full stop that it may end in.</summary>
    public static string Of(WeatherYear weather) => weather.Source.TrimEnd('.', ' ') + (weather.IsTypical ? "; a typical year" : "; a measured year");

    /// <summary>A combination by its name.</summary>
    public static string Of(DecisionResult decided, CellName name) => Of(decided.Cells.First(c => c.Name == name).Year);

    /// <summary>A combination by its name in one line.</summary>
    public static string Of(DecisionResult decided, string name) => Of(decided.Cells.First(c => c.Name.Words == name).Year);

    /// <summary>A value of an uncertain input with its unit: factors as times, shares in per cent.</summary>
    public static string Of(UncertainInput input, double value) =>
        input.Unit == ProposedInputs.MissedNights.Unit ? $"{Plain(100 * value, 1)} %"
        : input.Unit == ProposedInputs.PriceEscalation().Unit ? $"{Plain(100 * value, 2)} % a year"
        : $"times {Plain(value, 3)}";

    /// <summary>A payback.</summary>
    public static string Of(Payback payback) => payback.Outcome switch
    {
        PaybackOutcome.NothingToPayBack => "nothing to pay back",
        PaybackOutcome.PaidBack => Plain(payback.Years!.Value, 1) + " years",
        PaybackOutcome.PaidBackThenLost => Plain(payback.Years!.Value, 1) + " years, lost again later",
        _ => "not in the study period",
    };

    /// <summary>What a panel estimate says.</summary>
    public static string Of(PanelOutcome outcome) => outcome switch
    {
        PanelOutcome.RoomByThisEstimate => "room by this estimate",
        PanelOutcome.NoRoomByThisEstimate => "no room by this estimate",
        _ => "the data can't decide",
    };

    /// <summary>An amount with its currency.</summary>
    public static string Amount(decimal amount, string currency) => $"{Figure(amount, currency)} {currency}";

    /// <summary>An amount without its currency, for a column that names it: to the minor unit, thousands apart.</summary>
    public static string Figure(decimal amount, string currency)
    {
        var digits = MinorUnits.DigitsOf(currency);
        return (Math.Round(amount, digits, MidpointRounding.AwayFromZero) + 0m).ToString($"N{digits}", CultureInfo.InvariantCulture);
    }

    /// <summary>The least and the most over several weather years; a line breaks after the first alone.</summary>
    public static string Range(MedianAndRange range, string currency) => $"{Figure(range.Least, currency)} to\u00a0{Figure(range.Most, currency)}";

    /// <summary>A number with so many digits at most.</summary>
    public static string Plain(double number, int digits) =>
        Math.Round(number, digits, MidpointRounding.AwayFromZero).ToString("0." + new string('#', digits), CultureInfo.InvariantCulture);
}
