using System.Globalization;
using Microsoft.OpenApi;
using ScheduleOpt.Service.Problems;

namespace ScheduleOpt.Service.Documentation;

/// <summary>What goes in and out of each operation.</summary>
internal static class ApiBodies
{
    private const string Json = "application/json";

    private static readonly ProblemKind[] Anywhere =
        [ProblemKind.UnknownHost, ProblemKind.TooManyRequests, ProblemKind.InternalError];

    private static readonly ProblemKind[] Posted =
    [
        ProblemKind.KeyRequired, ProblemKind.MalformedJson, ProblemKind.ForeignOrigin, ProblemKind.NotAcceptable,
        ProblemKind.RequestTimeout, ProblemKind.BodyTooLarge, ProblemKind.UnsupportedMediaType, ProblemKind.InvalidRequest, ProblemKind.Busy,
    ];

    private static readonly (string, string)[] Reports =
        [("text/html", "The adviser's report: one page without script."), ("text/csv", "A line a cell (RFC 4180).")];

    private static readonly ProblemKind[] Found = [ProblemKind.KeyRequired, ProblemKind.NotFound, ProblemKind.NotAcceptable];

    private static readonly Dictionary<string, ApiBody> Bodies = new()
    {
        ["createSchedule"] = new(
            "ScheduleRequest",
            [
                ("schedule", "A request that runs"),
                ("schedule-hourly-prices", "A rate plan that follows day-ahead prices"),
                ("schedule-two-cars", "Two cars on one circuit, a solar roof, a carbon price and a charging profile"),
            ],
            "ScheduleAnswers",
            "The schedule; outcome says whether every departure is met.", Posted,
            [
                ("text/calendar", "The charging windows as a calendar to subscribe to (RFC 5545)."),
                ("text/csv", "The intervals, or with rows=windows the windows, as a table (RFC 4180)."),
            ]),
        ["createComparison"] = new(
            "ComparisonRequest",
            [
                ("comparison", "A request that runs"),
                ("comparison-choices", "One rate plan under two choices, with a critical peak"),
                ("comparison-winters", "Several weather years, monthly bills, sessions of public charging and a meter for the car"),
                ("comparison-decision", "Life-cycle cost against today, a panel, a scenario, and what would flip the ranking"),
            ],
            "ComparisonAnswer",
            "One cell for each combination.", Posted, Reports)
        {
            Later = "Job",
        },
        ["getJob"] = new(null, [], "Job", "How far it has come.", Found, [("text/event-stream", "Events until the job ends; the data of each is the job.")]),
        ["getJobResult"] = new(null, [], "ComparisonAnswer", "The answer.", Found, Reports),
        ["cancelJob"] = new(null, [], "Job", "The job is gone.", [.. Found, ProblemKind.ForeignOrigin]),
        ["createBill"] = new(
            "BillRequest",
            [
                ("bill", "A request that runs"),
                ("bill-solar-home", "Export, day-ahead prices and the credit of the bill before"),
                ("bill-critical-peak", "A choice, a critical peak and the demand of a past month"),
            ],
            "BillAnswer",
            "The bill.",
            Posted),
        ["listRatePlans"] = new(null, [], "RatePlanList", "The rate plans.", [ProblemKind.KeyRequired, ProblemKind.NotAcceptable]),
        ["getRatePlan"] = new(
            null, [], "RatePlanDocument", "The rate-plan document.", [ProblemKind.KeyRequired, ProblemKind.NotFound, ProblemKind.NotAcceptable]),
        ["getLive"] = new(null, [], "Health", "The process lives.", []),
        ["getReady"] = new(null, [], "Health", "The service can answer.", [ProblemKind.NotReady]),
    };

    /// <summary>Adds bodies and problems to an operation.</summary>
    public static void Describe(OpenApiOperation operation, OpenApiDocument document)
    {
        var body = Bodies[operation.OperationId!];
        if (body.Request is not null)
        {
            operation.RequestBody = new OpenApiRequestBody
            {
                Required = true,
                Description = "At most 1 MiB, UTF-8.",
                Content = new Dictionary<string, OpenApiMediaType>
                {
                    [Json] = new OpenApiMediaType
                    {
                        Schema = new OpenApiSchemaReference(body.Request, document),
                        Examples = body.Examples.ToDictionary(
                            e => e.Name,
                            IOpenApiExample (e) => new OpenApiExample { Summary = e.Summary, Value = ApiSchemas.Example(e.Name) }),
                    },
                },
            };
        }

        operation.Responses = new OpenApiResponses
        {
            ["200"] = new OpenApiResponse
            {
                Description = body.Answers,
                Content = new Dictionary<string, OpenApiMediaType>
                {
                    [Json] = new OpenApiMediaType
                    {
                        Schema = new OpenApiSchemaReference(body.Answer, document),
                    },
                },
            },
        };
        foreach (var (media, holds) in body.Others ?? [])
        {
            operation.Responses["200"].Content![media] = new OpenApiMediaType
            {
                Schema = new OpenApiSchema { Type = JsonSchemaType.String, Description = holds },
            };
        }

        if (body.Later is not null)
        {
            operation.Responses["202"] = new OpenApiResponse
            {
                Description = "With Prefer: respond-async: the job, whose address stands in Location.",
                Content = new Dictionary<string, OpenApiMediaType> { [Json] = new OpenApiMediaType { Schema = new OpenApiSchemaReference(body.Later, document) } },
            };
        }

        foreach (var kinds in Anywhere.Concat(body.Problems).GroupBy(kind => kind.Status).OrderBy(group => group.Key))
        {
            operation.Responses[kinds.Key.ToString(CultureInfo.InvariantCulture)] = new OpenApiResponse
            {
                Description = string.Join("; ", kinds.Select(kind => $"{kind.Title} ({kind.Type})")),
                Content = new Dictionary<string, OpenApiMediaType>
                {
                    [ProblemWriter.ContentType] = new OpenApiMediaType { Schema = new OpenApiSchemaReference("Problem", document) },
                },
            };
        }
    }
}
