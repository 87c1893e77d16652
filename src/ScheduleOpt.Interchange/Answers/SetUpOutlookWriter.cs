using System.Text.Json;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Comparison.Seasons;
using ScheduleOpt.Core;
using ScheduleOpt.Core.Homes.Panels;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Writes what holds for a set-up whatever the rate plan: first cost, incentives, range added, nights, panel.</summary>
internal static class SetUpOutlookWriter
{
    private static readonly (PanelOutcome Outcome, string Word)[] Outcomes =
    [
        (PanelOutcome.CannotDecide, "cannotDecide"), (PanelOutcome.RoomByThisEstimate, "roomByThisEstimate"),
        (PanelOutcome.NoRoomByThisEstimate, "noRoomByThisEstimate"),
    ];

    /// <summary>Writes the set-ups.</summary>
    public static void Write(Utf8JsonWriter json, ComparisonRequest request, DecisionResult decided)
    {
        json.WriteStartArray("setUps");
        foreach (var outlook in decided.SetUps)
        {
            json.WriteStartObject();
            json.WriteString("name", outlook.Offered.SetUp.Name);
            WriteMoney(json, request.Decision, outlook.Offered, decided.Year.Currency);
            json.WriteStartArray("seasons");
            foreach (var season in outlook.Seasons)
            {
                WriteSeason(json, season, request.Options.Unit);
            }

            json.WriteEndArray();
            WritePanel(json, outlook.Panel);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteMoney(Utf8JsonWriter json, DecisionCase question, OfferedSetUp offered, string currency)
    {
        json.WriteMoney("firstCost", new Money(offered.Chosen.FirstCost, currency));
        json.WriteStartArray("firstCostParts");
        foreach (var cost in offered.Chosen.Costs)
        {
            json.WriteStartObject();
            json.WriteString("part", SetUpReader.WordFor(cost.Name));
            json.WriteMoney("amount", new Money(cost.Figure.Value, currency));
            json.WriteBoolean("isOwn", cost.Figure.IsOwn);
            json.WriteString("basis", cost.Figure.Note);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteSentences("missingFirstCost", offered.Chosen.Missing.Select(SetUpReader.WordFor));
        json.WriteStartArray("incentives");
        foreach (var incentive in offered.Incentives)
        {
            json.WriteStartObject();
            json.WriteString("name", incentive.Name);
            json.WriteMoney("amount", new Money(incentive.Amount, currency));
            json.WriteString("source", incentive.Source);
            json.WriteString("asOf", NodaTime.Text.LocalDatePattern.Iso.Format(incentive.AsOf));
            if (question.LifeCycle is { } asked)
            {
                json.WriteBoolean("inForce", incentive.IsInForceOn(asked.Terms.Study.BaseDate));
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteSeason(Utf8JsonWriter json, SeasonOutlook season, DistanceUnit unit)
    {
        var (suffix, of) = unit == DistanceUnit.Mile
            ? ("Mi", static (Distance d) => d.Miles) : ("Km", (Func<Distance, double>)(static d => d.Kilometres));
        json.WriteStartObject();
        json.WriteString("months", season.Months);
        json.WriteRounded("meanC", season.MeanC, 2);
        json.WriteRounded("netPowerKw", season.Range.NetKw, 3);
        json.WriteRounded($"ratedRangePerHour{suffix}", of(season.Range.Rated), 2);
        json.WriteRounded($"realRangePerHour{suffix}", of(season.Range.Real), 2);
        if (double.IsFinite(season.Nights.PerWeek))
        {
            json.WriteRounded("nightsPerWeek", season.Nights.PerWeek, 3);
        }
        else
        {
            json.WriteNull("nightsPerWeek");
        }

        json.WriteBoolean("keepsUp", season.Nights.KeepsUp);
        json.WriteEndObject();
    }

    private static void WritePanel(Utf8JsonWriter json, PanelEstimate? panel)
    {
        if (panel is null)
        {
            return;
        }

        json.WriteStartObject("panel");
        json.WriteString("outcome", Outcomes.First(o => o.Outcome == panel.Outcome).Word);
        json.WriteString("method", panel.Method);
        json.WriteSentences("reasons", panel.Reasons);
        json.WriteRounded("serviceKva", panel.ServiceKva, 3);
        if (panel.HouseKva is { } house)
        {
            json.WriteRounded("houseKva", house, 3);
            json.WriteRounded("chargingKva", panel.ChargingKva!.Value, 3);
            json.WriteRounded("leftKva", panel.LeftKva!.Value, 3);
        }

        if (panel.Managed is { } managed)
        {
            json.WriteStartObject("loadManagement");
            json.WriteNumber("currentA", managed.CurrentA);
            json.WriteRounded("powerKva", managed.PowerKva, 3);
            json.WriteString("condition", ManagedMaximum.Condition);
            json.WriteEndObject();
        }

        json.WriteString("caution", PanelEstimate.Caution);
        json.WriteEndObject();
    }
}
