using System.Text.Json;
using NodaTime.Text;
using ScheduleOpt.Comparison.Decisions;
using ScheduleOpt.Interchange.HouseLoads;
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
            WintersWriter.WriteWeek(json, result.ColdestWeek);
            json.WriteStartObject("houseLoad");
            json.WriteString("class", request.House.Class);
            json.WriteString("wording", request.House.Words);
            json.WriteEndObject();
            WriteCalibration(json, Calibration.Of(request, decided));
            SetUpOutlookWriter.Write(json, request, decided);
            json.WriteStartArray("cells");
            foreach (var cell in decided.Cells)
            {
                ComparisonCellWriter.Write(json, cell, result.Currency);
            }

            json.WriteEndArray();
            WintersWriter.Write(json, decided.Winters, result.Currency);
            DecisionWriter.WriteWhys(json, decided);
            DecisionWriter.WriteFlips(json, request.Options.Unit == DistanceUnit.Mile ? decided.Flips?.InMiles() : decided.Flips);
            DecisionWriter.WriteUncertainty(json, decided);
            json.WriteIgnored(request.Ignored);
            json.WriteSentences("cautions", Cautions.ForSetUps(request.Case.SetUps));
            json.WriteSentences("warnings", request.Warnings.Concat(result.Warnings));
        });
    }

    private static void WriteCalibration(Utf8JsonWriter json, Calibration? calibration)
    {
        if (calibration is null)
        {
            return;
        }

        json.WriteStartObject("calibration");
        json.WriteString("verdict", calibration.Verdict);
        json.WriteRounded("nmbe", calibration.Result.Bias, 5);
        json.WriteRounded("cvRmse", calibration.Result.Scatter, 5);
        json.WriteRounded("mostNmbe", BillCalibration.MostBias, 5);
        json.WriteRounded("mostCvRmse", BillCalibration.MostScatter, 5);
        json.WriteBoolean("billsContainCar", calibration.Bills.ContainCar);
        json.WriteBoolean("isIndependent", !calibration.Bills.IsItsOwnSource);
        json.WriteStartArray("months");
        for (var i = 0; i < calibration.Result.BilledKwh.Count; i++)
        {
            json.WriteStartObject();
            if (calibration.Bills.Spans?[i] is { } span)
            {
                json.WriteString("start", LocalDatePattern.Iso.Format(span.Start));
                json.WriteString("end", LocalDatePattern.Iso.Format(span.End));
            }

            json.WriteRounded("billedKwh", calibration.Result.BilledKwh[i], 3);
            json.WriteRounded("modelledKwh", calibration.Result.ModelledKwh[i], 3);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteString("wording", calibration.Words);
        json.WriteEndObject();
    }
}
