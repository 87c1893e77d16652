using System.Text.Json;
using ScheduleOpt.Core;
using ScheduleOpt.Interchange.Requests;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Answers;

/// <summary>Writes the answer of <c>POST /v1/bills</c>.</summary>
public static class BillAnswerWriter
{
    /// <summary>Writes the answer as UTF-8.</summary>
    public static byte[] Write(BillRequest request, Bill bill) => AnswerJson.Write(json =>
    {
        json.WriteString("ratePlan", bill.RatePlanId);
        if (request.Input.Choices.Count > 0)
        {
            json.WriteStartObject("choices");
            foreach (var (option, choice) in request.Input.Choices)
            {
                json.WriteString(option, choice);
            }

            json.WriteEndObject();
        }

        json.WriteMoney("total", new Money(bill.Total, bill.Currency));
        json.WriteTotalsByPart(bill);
        json.WriteStartArray("periods");
        foreach (var period in bill.Periods)
        {
            WritePeriod(json, period, request, bill.Currency);
        }

        json.WriteEndArray();
        CarriedStateWriter.Write(json, bill.State, request.RatePlan);
        json.WriteSentences("cautions", [Cautions.BillsAreEstimates]);
        json.WriteSentences("warnings", request.Warnings.Concat(bill.Warnings));
    });

    /// <summary>The name of a part as a field.</summary>
    public static string NameOf(BillPart part) => JsonNamingPolicy.CamelCase.ConvertName(part.ToString());

    /// <summary>The sums of the parts that have a line.</summary>
    internal static void WriteTotalsByPart(this Utf8JsonWriter json, Bill bill)
    {
        json.WriteStartObject("totalsByPart");
        foreach (var (part, amount) in bill.TotalsByPart())
        {
            json.WriteMoney(NameOf(part), new Money(amount, bill.Currency));
        }

        json.WriteEndObject();
    }

    private static void WritePeriod(Utf8JsonWriter json, BillStatement period, BillRequest request, string currency)
    {
        var zone = request.RatePlan.Zone;
        json.WriteStartObject();
        json.WriteTime("start", period.Start, zone);
        json.WriteTime("end", period.End, zone);
        json.WriteNumber("energyKwh", period.EnergyKwh);
        json.WriteStartArray("lines");
        foreach (var line in period.Lines)
        {
            json.WriteStartObject();
            json.WriteString("part", NameOf(line.Part));
            json.WriteString("description", line.Description);
            json.WriteExact("quantity", line.Quantity);
            json.WriteString("unit", line.Unit);
            json.WriteExact("price", line.Price);
            json.WriteExact("amount", line.Amount);
            json.WriteString("rule", line.Rule);
            if (line.Place is { } place)
            {
                json.WriteString("place", "#" + place.Path);
            }

            // Lines of a document inside a request are counted in a text that nobody sees.
            if (line.Place?.Line is { } number && request.HasDocumentLines)
            {
                json.WriteNumber("line", number);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteMoney("total", new Money(period.Total, currency));
        json.WriteEndObject();
    }
}
