# hookspan as a small image without a shell: a static binary, run by a user without rights.
FROM rust:1.95-slim AS build
RUN apt-get update \
    && apt-get install --yes --no-install-recommends musl-tools \
    && rm -rf /var/lib/apt/lists/* \
    && rustup target add "$(uname -m)-unknown-linux-musl"
WORKDIR /build
# What belongs to the build is listed in .dockerignore.
COPY . .
RUN cargo build --release --locked --bin hookspan --target "$(uname -m)-unknown-linux-musl" \
    && cp "target/$(uname -m)-unknown-linux-musl/release/hookspan" /hookspan

FROM scratch
COPY --from=build /hookspan /hookspan
COPY LICENSE /LICENSE
# A user without a name and without rights.
USER 65532:65532
EXPOSE 8080
# WARNING: inside a container the service must listen on every address to be reachable at all,
# and this version has no API keys: whoever reaches the published port can use it. Publish the
# port to 127.0.0.1 only (docker run -p 127.0.0.1:8080:8080), or put something in front that
# decides who may call.
ENV HOOKSPAN_BIND=0.0.0.0:8080 \
    HOOKSPAN_ANONYMOUS=true \
    HOOKSPAN_LOG_FORMAT=json
# No HEALTHCHECK: the image has no shell and no client to run one with. Let the platform ask
# GET /livez and GET /readyz.
ENTRYPOINT ["/hookspan"]
