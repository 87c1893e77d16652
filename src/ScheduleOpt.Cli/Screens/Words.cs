using ScheduleOpt.Comparison.Behaviours;
using ScheduleOpt.Core.Homes.Panels;

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
        "leastCostByNight" => "night by night",
        var name => name,
    };

    /// <summary>What a panel estimate says.</summary>
    public static string Of(PanelOutcome outcome) => outcome switch
    {
        PanelOutcome.RoomByThisEstimate => "room by this estimate",
        PanelOutcome.NoRoomByThisEstimate => "no room by this estimate",
        _ => "the data can't decide",
    };

    /// <summary>A sentence's beginning.</summary>
    public static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
