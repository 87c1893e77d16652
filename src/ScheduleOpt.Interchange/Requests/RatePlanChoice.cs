using System.Text.Json;
using ScheduleOpt.Interchange.RatePlans;
using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>Reads a <c>ratePlan</c>: the identifier of one that comes with the program, or a whole document.</summary>
internal static class RatePlanChoice
{
    /// <summary>Reads a rate plan.</summary>
    /// <param name="maybe">The field.</param>
    /// <param name="id">The identifier that a document in the request goes by.</param>
    public static RatePlan? Read(JsonField? maybe, string id = "request")
    {
        if (maybe is not { } field)
        {
            return null;
        }

        if (field.Element.ValueKind == JsonValueKind.String)
        {
            if (RatePlanLibrary.Find(field.Element.GetString()!) is { } known)
            {
                return known;
            }

            field.Fault($"Must be the id of a known rate plan ({string.Join(", ", RatePlanLibrary.Ids)}) or a rate-plan document.");
            return null;
        }

        if (field.Element.ValueKind != JsonValueKind.Object)
        {
            field.Fault("Must be the id of a known rate plan or a rate-plan document.");
            return null;
        }

        var reading = RatePlanDocument.Read(field.Element.GetRawText(), id);
        if (reading.IsRead)
        {
            return reading.Value;
        }

        // Lines are counted in the text of the document alone: inside a request they would point to the wrong place.
        field.Faults.AddInner(field.Pointer, reading.Faults.Select(f => f with { Line = null }));
        return null;
    }
}
