using NodaTime.Text;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Writes the answer of <c>POST /v1/comparisons</c>: one cell for each set-up, rate plan and behaviour.</summary>
public static class ComparisonAnswerWriter
{
    /// <summary>Writes the answer as UTF-8.</summary>
    public static byte[] Write(ComparisonRequest request, DecisionResult decided)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(decided);
        var result = decided.Year;
        var zone = request.Case.Zone.Zone;
        return AnswerJson.Write(json =>
        {
            json.WriteString("version", ProgramVersion.Text);
            json.WriteString("inputHash", request.InputHash);
            DecisionWriter.WriteScenario(json, request.Scenario);
            json.WriteNumber("year", request.Case.Year);
            json.WriteTime("start", result.Start, zone);
            json.WriteTime("end", result.End, zone);
            json.WriteString("currency", result.Currency);
            json.WriteString("weather", request.Case.Weather.Source);
            json.WriteStartObject("coldestWeek");
            json.WriteString("first", LocalDatePattern.Iso.Format(result.ColdestWeek.First));
            json.WriteRounded("meanC", result.ColdestWeek.MeanC, 2);
            json.WriteString("wording", result.ColdestWeek.Wording);
            json.WriteEndObject();
            json.WriteStartObject("houseLoad");
            json.WriteString("class", request.House.Class);
            json.WriteString("wording", request.House.Words);
            json.WriteEndObject();
            SetUpOutlookWriter.Write(json, request, decided);
            json.WriteStartArray("cells");
            foreach (var cell in decided.Cells)
            {
                ComparisonCellWriter.Write(json, cell, result.Currency);
            }

            json.WriteEndArray();
            DecisionWriter.WriteWhys(json, decided);
            DecisionWriter.WriteFlips(json, decided);
            DecisionWriter.WriteUncertainty(json, decided);
            json.WriteIgnored(request.Ignored);
            json.WriteSentences("cautions", Cautions.ForSetUps(request.Case.SetUps));
            json.WriteSentences("warnings", request.Warnings.Concat(result.Warnings));
        });
    }
}
