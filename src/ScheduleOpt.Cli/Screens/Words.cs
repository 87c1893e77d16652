using ScheduleOpt.Comparison.Behaviours;

namespace ScheduleOpt.Cli.Screens;

/// <summary>What things are called on a screen.</summary>
internal static class Words
{
    /// <summary>A behaviour; none: public charging alone.</summary>
    public static string Of(Behaviour? behaviour) => behaviour?.Name switch
    {
        null => "public charging",
        "onArrival" => "on arrival",
        "fixedStart" => "fixed start",
        "byDeparture" => "by departure",
        "leastCostKnownAhead" => "known ahead",
        var name => name,
    };

    /// <summary>A sentence's beginning.</summary>
    public static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
